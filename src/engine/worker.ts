/** The engine in a Web Worker. It alone loads the calculator, so that the page's first paint does not wait for it. */

import { warmUp } from '../../functions/field/warm-up.ts';
import { type Request, serve } from './serve.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;

serve({
  post: (message) => scope.postMessage(message),
  listen: (receive) => {
    scope.onmessage = (event: MessageEvent<Request>) => receive(event.data);
  },
});

warmUp();
