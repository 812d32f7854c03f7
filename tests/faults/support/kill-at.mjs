// Loaded before a child's own code: the process kills itself, as kill -9 does, before the nth thing that it changes on
// the disk, or (with LIFTSIDE_KILL_HALF) when half of what the nth one writes is written. LIFTSIDE_KILL_AT=0 only counts,
// and notes the number in LIFTSIDE_KILL_COUNT when the process ends.
import fs from 'node:fs';
import promises from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';

const at = Number(process.env.LIFTSIDE_KILL_AT ?? 0);
const half = process.env.LIFTSIDE_KILL_HALF !== undefined;
const count = process.env.LIFTSIDE_KILL_COUNT;
let changes = 0;
const writeSync = fs.writeSync;
const openSync = fs.openSync;

function kill() {
  process.kill(process.pid, 'SIGKILL');
  // The signal comes when the system gets to it; nothing more is done until then.
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
}

/** @param part writes half of it */
function change(part) {
  changes++;
  if (changes !== at) return;
  if (half && part) part();
  kill();
}

const halfOf = (data) =>
  typeof data === 'string' ? data.slice(0, data.length / 2) : Buffer.from(data).subarray(0, data.length / 2);
const writes = (flags) => /[wa+]/.test(String(flags ?? 'r'));

for (const name of ['rename', 'mkdir', 'rm', 'rmdir', 'unlink', 'link', 'symlink', 'copyFile', 'chmod', 'truncate']) {
  for (const [owner, called] of [
    [promises, name],
    [fs, `${name}Sync`],
  ]) {
    const real = owner[called];
    if (!real) continue;
    owner[called] = (...words) => {
      change();
      return real.apply(owner, words);
    };
  }
}
const realWriteFile = promises.writeFile;
promises.writeFile = (path, data, ...rest) => {
  change(() => writeSync(openSync(path, 'w'), halfOf(data)));
  return realWriteFile(path, data, ...rest);
};
const realOpen = promises.open;
promises.open = async (path, flags, ...rest) => {
  if (writes(flags)) change();
  const handle = await realOpen(path, flags, ...rest);
  for (const name of ['writeFile', 'appendFile', 'write']) {
    const real = handle[name].bind(handle);
    handle[name] = (data, ...more) => {
      change(() => writeSync(handle.fd, halfOf(data)));
      return real(data, ...more);
    };
  }
  return handle;
};
fs.writeFileSync = (
  (real) =>
  (path, data, ...rest) => {
    change(() => writeSync(openSync(path, 'w'), halfOf(data)));
    return real(path, data, ...rest);
  }
)(fs.writeFileSync);
// Streams open and write by these two.
for (const name of ['open', 'write'])
  fs[name] = (
    (real) =>
    (...words) => {
      if (name === 'write') change(() => writeSync(words[0], halfOf(words[1])));
      else if (typeof words[1] === 'string' && writes(words[1])) change();
      return real.apply(fs, words);
    }
  )(fs[name]);
syncBuiltinESMExports();
if (at === 0 && count) process.on('exit', () => writeSync(openSync(count, 'w'), String(changes)));
