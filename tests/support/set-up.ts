import { setUp } from '../../src/node/programs/index.ts';
import { setUpReaders } from './second-readers.ts';

// npm run set-up: finds Chromium and ffmpeg, and what only tests use (a Redis for their queues among it), or installs them.
const say = (text: string) => console.log(text);
const { chromium, ffmpeg } = await setUp(process.env, say);
await setUpReaders(process.env, say);
process.exitCode = chromium && ffmpeg ? 0 : 3;
