/**
 * The program of every worker. It alone loads the calculator, so that the page's first paint does not wait for it. A browser without workers loads the
 * same file into the page.
 */

import { warmUp } from '../../../functions/field/index.ts';
import { IN_PAGE, type InPage, PROPOSING } from './in-page.ts';
import { rehearsal } from './rehearsal.ts';
import { type Request, serve } from './serve.ts';

type Line = Pick<MessagePort, 'postMessage' | 'onmessage'>;

/** Serves over a port, in whatever loaded the file. */
function serveOver(port: Line, what: string): void {
  if (what === PROPOSING) propose(port);
  else {
    serve({
      post: (message) => port.postMessage(message),
      listen: (receive) => {
        port.onmessage = (event: MessageEvent<Request>) => receive(event.data);
      },
    });
  }
}

/** What proposes is fetched by those that do. What is asked meanwhile waits for it. */
function propose(port: Line): void {
  const ready = import('./serve-proposals.ts').then(({ serveProposals }) => serveProposals((said) => port.postMessage(said)));
  port.onmessage = ({ data }) =>
    ready.then(
      (receive) => receive(data),
      (error: Error) => port.postMessage({ kind: 'failure', id: data.id, message: error.message }),
    );
}

/** In steps of a few milliseconds, between which what is asked is answered. */
async function rehearse(): Promise<void> {
  for await (const _ of rehearsal()) await new Promise((resolve) => setTimeout(resolve));
}

if (typeof document === 'undefined') {
  serveOver(self as unknown as MessagePort, self.name);
  warmUp();
  if (self.name !== PROPOSING) void rehearse();
} else {
  // A worker's file has no exports: the page says over which port. It rehearses nothing, for that would keep waiting whoever works on the page.
  document.addEventListener(IN_PAGE, (event) => {
    const { port, what } = (event as CustomEvent<InPage>).detail;
    serveOver(port, what);
  });
}
