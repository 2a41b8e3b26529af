/**
 * The engine in a Web Worker. It alone loads the calculator, so that the page's first paint does not wait for it. A browser without workers loads the
 * same file into the page.
 */

import { warmUp } from '../../../functions/field/index.ts';
import { IN_PAGE } from './in-page.ts';
import { rehearsal } from './rehearsal.ts';
import { type Request, serve } from './serve.ts';

/** Serves over a port, in whatever loaded the file. */
function serveOver(port: Pick<MessagePort, 'postMessage' | 'onmessage'>): void {
  serve({
    post: (message) => port.postMessage(message),
    listen: (receive) => {
      port.onmessage = (event: MessageEvent<Request>) => receive(event.data);
    },
  });
}

/** In steps of a few milliseconds, between which what is asked is answered. */
async function rehearse(): Promise<void> {
  for await (const _ of rehearsal()) await new Promise((resolve) => setTimeout(resolve));
}

if (typeof document === 'undefined') {
  serveOver(self as unknown as MessagePort);
  warmUp();
  void rehearse();
} else {
  // A worker's file has no exports: the page says over which port. It rehearses nothing, for that would keep waiting whoever works on the page.
  document.addEventListener(IN_PAGE, (event) => serveOver((event as CustomEvent<MessagePort>).detail));
}
