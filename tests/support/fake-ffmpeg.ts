import { chmod, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Tools } from '../../src/node/media/tools.ts';

/** What the fake program does when it is called. */
export interface Answer {
  readonly stdout?: string;
  readonly stderr?: string;
  readonly code?: number;
  /** Ends itself by this signal. */
  readonly signal?: NodeJS.Signals;
  /** Runs on until it is stopped. */
  readonly hangs?: boolean;
  /** Files it writes: under its last argument where the name is `output`, else in the folder it works in. */
  readonly writes?: Readonly<Record<string, string>>;
}

/** An `ffmpeg` and `ffprobe` in a folder of their own that note how they are called and answer as they are told. */
export class FakeFfmpeg {
  readonly folder: string;

  private constructor(folder: string) {
    this.folder = folder;
  }

  static async make(): Promise<FakeFfmpeg> {
    const fake = new FakeFfmpeg(await mkdtemp(join(tmpdir(), 'liftside-fake-')));
    for (const name of ['ffmpeg', 'ffprobe']) {
      await writeFile(join(fake.folder, name), SCRIPT);
      await chmod(join(fake.folder, name), 0o755);
    }
    await fake.answers({});
    return fake;
  }

  get tools(): Tools {
    const path = (name: string) => join(this.folder, name);
    return { ffmpeg: path('ffmpeg'), ffprobe: path('ffprobe'), version: '9.9', encoders: new Set(['libx264', 'aac']) };
  }

  async answers(answer: Answer): Promise<void> {
    await writeFile(join(this.folder, 'answer.json'), JSON.stringify(answer));
  }

  /** The arguments of each call so far. */
  async calls(): Promise<string[][]> {
    const text = await readFile(join(this.folder, 'calls'), 'utf8').catch(() => '');
    return text
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => JSON.parse(line) as string[]);
  }

  async remove(): Promise<void> {
    await rm(this.folder, { recursive: true, force: true });
  }
}

const SCRIPT = `#!${process.execPath}
const { appendFileSync, readFileSync, writeFileSync } = require('node:fs');
const args = process.argv.slice(2);
appendFileSync(__dirname + '/calls', JSON.stringify(args) + '\\n');
const { stdout = '', stderr = '', code = 0, signal, hangs, writes = {} } = JSON.parse(readFileSync(__dirname + '/answer.json'));
for (const [name, text] of Object.entries(writes)) writeFileSync(name === 'output' ? args.at(-1) : name, text, 'latin1');
process.stdout.write(stdout);
process.stderr.write(stderr);
process.exitCode = code;
if (signal) process.kill(process.pid, signal);
if (signal || hangs) setInterval(() => {}, 60_000);
`;
