import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { copyFile, cp, link, mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);
const HOME = resolve(import.meta.dirname, '../..');

/** A content folder of its own, away from the demo's: the shop, its machine and kit, and what a test puts in. */
export async function roomContent(files: Readonly<Record<string, string>>): Promise<string> {
  const content = await mkdtemp(join(tmpdir(), 'liftside-room-'));
  for (const folder of ['recordings', 'lessons', 'classes', 'media']) await mkdir(join(content, folder));
  for (const name of ['shop.yaml', 'kit.yaml', 'specs'])
    await cp(join(HOME, 'content', name), join(content, name), { recursive: true });
  for (const [name, text] of Object.entries(files)) await writeFile(join(content, name), text);
  return content;
}

/** Footage drawn by ffmpeg: every frame shows its number in black and white blocks; half the time it is quiet. */
export async function drawFootage(path: string, seconds: number): Promise<void> {
  const bits = Array.from(
    { length: 14 },
    (_, bit) => `drawbox=x=${8 + bit * 22}:y=150:w=20:h=20:color=white:t=fill:enable='mod(floor(n/${2 ** bit}),2)'`,
  );
  await run('ffmpeg', [
    ...['-v', 'error', '-y', '-f', 'lavfi', '-i', `color=c=0x204060:s=320x180:r=25:d=${seconds}`],
    ...['-f', 'lavfi', '-i', `sine=frequency=330:duration=${seconds},volume='if(lt(mod(t,8),5),0.4,0)':eval=frame`],
    ...['-vf', `drawbox=x=0:y=140:w=320:h=40:color=black:t=fill,${bits.join(',')}`],
    ...[
      '-c:v',
      'libx264',
      '-preset',
      'ultrafast',
      '-g',
      '50',
      '-pix_fmt',
      'yuv420p',
      '-c:a',
      'aac',
      '-b:a',
      '32k',
      path,
    ],
  ]);
}

/** `start` as a person starts it. */
export interface Started {
  readonly address: string;
  readonly process: ChildProcess;
  stop(signal?: NodeJS.Signals): Promise<void>;
}

/**
 * @param port the same one again, for a start after a crash; a free one when left out
 * @param cwd the folder it is called in; Liftside's own when left out
 */
export async function startRoom(content: string, port?: number, cwd = HOME): Promise<Started> {
  const words = [join(HOME, 'src/node/cli/liftside.mjs'), 'start', '--content', content, '--lan', '127.0.0.1'];
  // A test runner's own variables would make the site's builder serve no pages.
  const { VITEST: _runner, NODE_ENV: _mode, TEST: _test, ...env } = process.env;
  const node = spawn(process.execPath, [...words, ...(port ? ['--port', String(port)] : [])], { cwd, env });
  let told = '';
  const address = await new Promise<string>((done, failed) => {
    const hear = (chunk: Buffer) => {
      told += chunk.toString();
      const found = /^(http:\/\/127\.0\.0\.1:\d+\/)$/m.exec(told)?.[1];
      if (!found) return;
      done(found);
    };
    node.stdout.on('data', hear);
    node.stderr.on('data', hear);
    node.once('exit', (code) => failed(new Error(`start ended with ${code}:\n${told.slice(-2000)}`)));
  });
  return {
    address,
    process: node,
    stop: (signal = 'SIGTERM') =>
      new Promise((done) => {
        if (node.exitCode !== null || node.signalCode !== null) return done();
        node.once('exit', () => done());
        node.kill(signal);
        setTimeout(() => node.kill('SIGKILL'), 60_000).unref();
      }),
  };
}

export async function discard(content: string): Promise<void> {
  await rm(content, { recursive: true, force: true });
}

/** The demo's content folder, footage by link, to be changed at will. */
export async function copyDemo(from = join(HOME, 'content')): Promise<string> {
  const content = await mkdtemp(join(tmpdir(), 'liftside-demo-'));
  await cp(from, content, {
    recursive: true,
    filter: (path) => !/\.(mp4|mkv|webm)$/.test(path) && !path.includes('.liftside'),
  });
  for (const name of await readdir(join(from, 'media')))
    if (/\.(mp4|mkv|webm)$/.test(name))
      await link(join(from, 'media', name), join(content, 'media', name)).catch(() =>
        copyFile(join(from, 'media', name), join(content, 'media', name)),
      );
  return content;
}

/** The demo's content folder with the analysis of one recording, which is made in the demo itself, once. */
export async function analysedDemo(recording: string): Promise<string> {
  await run(process.execPath, [join(HOME, 'src/node/cli/liftside.mjs'), 'analyse', recording], { cwd: HOME });
  const content = await copyDemo();
  const kept = join('.liftside/analysis', recording);
  await cp(join(HOME, 'content', kept), join(content, kept), { recursive: true });
  return content;
}
