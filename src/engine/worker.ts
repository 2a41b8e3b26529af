/** The engine in a Web Worker. It alone loads the calculator, so that the page's first paint does not wait for it. */

import { type Request, serve } from './serve.ts';
import { warmUp } from './warm-up.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;

serve({
  post: (message) => scope.postMessage(message),
  listen: (receive) => {
    scope.onmessage = (event: MessageEvent<Request>) => receive(event.data);
  },
});

warmUp();
