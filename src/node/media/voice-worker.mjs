// Listens to pieces of sound beside whoever starts it. Plain JavaScript, so that it starts by itself wherever Liftside
// is installed.
import { createRequire } from 'node:module';
import { parentPort, workerData } from 'node:worker_threads';

const { Vad } = createRequire(import.meta.url)('sherpa-onnx-node');
const { config, remembered, window } = workerData;

// To start it takes as long as to hear some seconds.
/** @type {InstanceType<typeof Vad> | undefined} */
let vad;

parentPort.on('message', (samples) => {
  vad ??= new Vad(config, remembered);
  const found = [];
  const take = () => {
    for (; !vad.isEmpty(); vad.pop()) {
      const { start, samples } = vad.front(false);
      found.push([start, start + samples.length]);
    }
  };
  for (let at = 0; at < samples.length; at += window) {
    vad.acceptWaveform(samples.subarray(at, at + window));
    take();
  }
  vad.flush();
  take();
  // A part of a window that is left over would be heard with the next piece.
  if (samples.length % window === 0) vad.reset();
  else vad = undefined;
  parentPort.postMessage(found);
});
