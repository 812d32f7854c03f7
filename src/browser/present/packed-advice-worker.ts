import '../cutting-room/policy.ts';
import loadHighs from 'highs';
import { answerOrders } from './answer-orders.ts';

/** Nothing can be fetched from a folder: the page hands the solver over with its first message. */
const bytes = new Promise<ArrayBuffer>((done) => {
  addEventListener('message', ({ data }: MessageEvent<{ readonly solver?: ArrayBuffer }>) => {
    if (data.solver) done(data.solver);
  });
});

answerOrders(
  bytes.then((solver) => {
    const hooks = {
      locateFile: (file: string) => file,
      // The loader's own hook (Emscripten, Module.instantiateWasm): it takes no bytes otherwise.
      instantiateWasm(imports: WebAssembly.Imports, receive: (instance: WebAssembly.Instance) => void) {
        void WebAssembly.instantiate(solver, imports).then(({ instance }) => receive(instance));
      },
    };
    return loadHighs(hooks);
  }),
);
