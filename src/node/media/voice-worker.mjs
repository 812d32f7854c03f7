// Listens to pieces of sound beside whoever starts it. Plain JavaScript, so that it starts by itself wherever Liftside
// is installed.
import { closeSync, openSync, readSync } from 'node:fs';
import { createRequire } from 'node:module';
import { parentPort, workerData } from 'node:worker_threads';
import { inWhole, whereToListen } from './where-to-listen.mjs';

const { Vad } = createRequire(import.meta.url)('sherpa-onnx-node');
const { config, remembered, window } = workerData;

// To start it takes as long as to hear some seconds.
/** @type {InstanceType<typeof Vad> | undefined} */
let vad;
// One piece after the other is read into the same memory: to get new memory for each takes a third as long as decoding.
let memory = new Float32Array(0);

/** @param {{ file: string, from: number, length: number }} piece */
function read({ file, from, length }) {
  if (memory.length < length) memory = new Float32Array(length);
  const samples = memory.subarray(0, length);
  const opened = openSync(file, 'r');
  const size = samples.BYTES_PER_ELEMENT;
  try {
    for (let filled = 0; filled < samples.byteLength; ) {
      const taken = readSync(opened, samples, filled, samples.byteLength - filled, from * size + filled);
      if (taken === 0) throw new RangeError(`${file} is shorter than it was`);
      filled += taken;
    }
  } finally {
    closeSync(opened);
  }
  return samples;
}

parentPort.on('message', (piece) => {
  const samples = read(piece);
  const spans = whereToListen(samples, window);
  vad ??= new Vad(config, remembered);
  const found = [];
  const take = () => {
    for (; !vad.isEmpty(); vad.pop()) {
      const { start, samples } = vad.front(false);
      found.push([start, start + samples.length]);
    }
  };
  for (const [start, end] of spans)
    for (let at = start; at < end; at += window) {
      vad.acceptWaveform(samples.subarray(at, Math.min(at + window, end)));
      take();
    }
  vad.flush();
  take();
  // A part of a window that is left over would be heard with the next piece.
  if (samples.length % window === 0) vad.reset();
  else vad = undefined;
  parentPort.postMessage(inWhole(found, spans));
});
