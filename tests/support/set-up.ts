import { setUp } from '../../src/node/programs/index.ts';

// npm run set-up: finds Chromium and ffmpeg, or installs them.
const { chromium, ffmpeg } = await setUp(process.env, (text) => console.log(text));
process.exitCode = chromium && ffmpeg ? 0 : 3;
