/** The engine in a Web Worker. It alone loads the calculator, so that the page's first paint does not wait for it. */

import { warmUp } from '../../functions/field/warm-up.ts';
import { rehearsal } from './rehearsal.ts';
import { type Request, serve } from './serve.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;

serve({
  post: (message) => scope.postMessage(message),
  listen: (receive) => {
    scope.onmessage = (event: MessageEvent<Request>) => receive(event.data);
  },
});

warmUp();

/** In steps of a few milliseconds, between which what is asked is answered. */
async function rehearse(): Promise<void> {
  for await (const _ of rehearsal()) await new Promise((resolve) => setTimeout(resolve));
}
void rehearse();
