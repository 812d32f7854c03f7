// Runs the recogniser in a process of its own: its library ends the process it runs in when a model does not suit it.
// Plain JavaScript, so that it starts by itself wherever Liftside is installed.
import { createRequire } from 'node:module';

const { OfflineRecognizer } = createRequire(import.meta.url)('sherpa-onnx-node');

/** @type {InstanceType<typeof OfflineRecognizer> | undefined} */
let recognizer;
let hotWords = '';

process.on('message', (message) => {
  if (message.settings) {
    recognizer = new OfflineRecognizer(message.settings);
    hotWords = message.hotWords;
    process.send({ ready: true });
    return;
  }
  const stream = hotWords === '' ? recognizer.createStream() : recognizer.createStream(hotWords);
  stream.acceptWaveform({ samples: message.samples, sampleRate: message.sampleRate });
  recognizer.decode(stream);
  const { text, tokens, timestamps } = recognizer.getResult(stream);
  process.send({ text, tokens: tokens ?? [], timestamps: timestamps ?? [] });
});
// Whoever started it is gone.
process.on('disconnect', () => process.exit(0));
