import { Readable } from 'node:stream';
import { ExecaError, execa } from 'execa';
import { MOST_ALL } from '../../core/collections/index.ts';
import { isLitter, packageNameReason } from '../../core/pack/index.ts';
import { firstLine } from '../../core/read/index.ts';
import { OutsideFailure } from '../failure.ts';
import { withScratchFolder } from '../files/index.ts';
import { type PackageFiles, PackageRefused } from '../pack/index.ts';
import type { Fetching } from './use.ts';

/** A repository that takes longer to answer is given up, ms. */
const PATIENCE = 300_000;
/** Modes of entries that are plain files (git, `ls-tree`): with and without the right to be run. */
const PLAIN = new Set(['100644', '100755']);

interface Blob {
  readonly id: string;
  readonly bytes: number;
}

/**
 * A collection in a git repository, by git itself: the newest commit of its first branch, without its history. No working
 * tree is ever made, so that no link, hook, filter or submodule of it can do anything: its list is read and looked at,
 * and then the files by their ids.
 *
 * @param folder in the repository; its top when left out
 */
export async function openRepository(
  address: string,
  folder: string | undefined,
  { signal, env }: Fetching,
): Promise<PackageFiles> {
  return withScratchFolder('collection', async (scratch) => {
    const git = async (...args: string[]): Promise<Buffer> => {
      try {
        const { stdout } = await execa('git', ['-c', 'core.hooksPath=/dev/null', ...args], {
          cwd: scratch,
          cancelSignal: signal,
          timeout: PATIENCE,
          encoding: 'buffer',
          stdin: 'ignore',
          maxBuffer: MOST_ALL,
          stripFinalNewline: false,
          env: { ...env, GIT_ALLOW_PROTOCOL: 'https:ssh:file', GIT_TERMINAL_PROMPT: '0', LC_ALL: 'C' },
        });
        return Buffer.from(stdout);
      } catch (error) {
        signal.throwIfAborted();
        throw gitFailure(error, address);
      }
    };
    await git(
      'clone',
      '--bare',
      '--depth',
      '1',
      '--single-branch',
      '--no-tags',
      '--template=',
      '--',
      address,
      'repository',
    );
    const list = await git('--git-dir=repository', 'ls-tree', '-r', '-l', '-z', folder ? `HEAD:${folder}` : 'HEAD');
    const blobs = blobsOf(list.toString('utf8'), address);
    const files = new Map<string, Buffer>();
    let all = 0;
    for (const [path, { id, bytes }] of blobs) {
      all += bytes;
      if (all > MOST_ALL)
        throw new PackageRefused(
          `${address}: its files have more than ${MOST_ALL} bytes together`,
          'none of it was taken; a repository for a collection may hold nothing else',
        );
      files.set(path, await git('--git-dir=repository', 'cat-file', 'blob', id));
    }
    return {
      sizes: new Map([...files].map(([path, bytes]) => [path, bytes.length])),
      read: async (path) => Readable.from([files.get(path) ?? Buffer.alloc(0)]),
      close: async () => undefined,
    };
  });
}

/** The files of a list of git's. @throws PackageRefused by the name of what is no plain file, or cannot be a name */
function blobsOf(list: string, address: string): ReadonlyMap<string, Blob> {
  const blobs = new Map<string, Blob>();
  for (const line of list.split('\0').filter((one) => one !== '')) {
    const [, mode = '', id = '', size = '', path = ''] = /^(\d+) \w+ ([0-9a-f]+) +(\d+|-)\t([\s\S]+)$/.exec(line) ?? [];
    if (isLitter(path)) continue;
    const reason = PLAIN.has(mode)
      ? packageNameReason(path)
      : mode === '120000'
        ? 'it is a link'
        : 'it is neither a file nor a folder';
    if (reason !== undefined)
      throw new PackageRefused(`${address}: ${JSON.stringify(path)}: ${reason}`, 'none of it was taken');
    blobs.set(path, { id, bytes: Number(size) });
  }
  return blobs;
}

function gitFailure(error: unknown, address: string): OutsideFailure {
  if (!(error instanceof ExecaError)) throw error;
  if (error.code === 'ENOENT')
    return new OutsideFailure('there is no git on this machine', 'install git, or take the collection from a folder');
  const stderr: unknown = error.stderr;
  const said = stderr instanceof Uint8Array ? Buffer.from(stderr).toString('utf8') : '';
  const fatal = /^(?:fatal|error): (.*)$/m.exec(said)?.[1];
  const reason = error.timedOut ? `nothing came for ${PATIENCE / 1000} s` : (fatal ?? firstLine(error.shortMessage));
  return new OutsideFailure(
    `${address} cannot be fetched: ${reason}`,
    'what is in use stays; correct the place, or try again',
  );
}
