import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { FileFacts } from '../../core/model/index.ts';
import { insideFolder } from './inside.ts';
import { placeFile } from './place-file.ts';
import { privateFolder } from './private-folder.ts';
import { kindOf } from './read-plain.ts';

interface Entry {
  /** Bytes and time of change of the file when it was probed. */
  readonly stamp: string;
  readonly facts: FileFacts;
}

/** Changes when a probe finds out more or other things than before. */
const VERSION = 3;

/**
 * What is known of media files, kept beside the content so that a check need not open them again.
 * An entry holds as long as its file keeps size and time of change. The cache may be lost at any time.
 */
export class ProbeCache {
  readonly #content: string;
  readonly #entries: Map<string, Entry>;
  #changed = false;

  private constructor(content: string, entries: Map<string, Entry>) {
    this.#content = content;
    this.#entries = entries;
  }

  static async open(content: string): Promise<ProbeCache> {
    try {
      const kept: unknown = JSON.parse(await readFile(cacheFile(content), 'utf8'));
      if (isKept(kept)) return new ProbeCache(content, new Map(Object.entries(kept.files)));
    } catch {
      // Missing or damaged: it is made anew.
    }
    return new ProbeCache(content, new Map());
  }

  /** @param file path relative to the content folder */
  async facts(file: string): Promise<FileFacts> {
    const inside = insideFolder(this.#content, file);
    if (!inside.ok) return { state: 'unreadable', reason: inside.problem };
    const { path } = inside;
    const known = await stat(path).catch(() => undefined);
    if (!known) return { state: 'missing' };
    if (!known.isFile()) return { state: 'unreadable', reason: `it is ${kindOf(known)}, not a file` };
    const stamp = `${known.size} ${known.mtimeMs}`;
    const kept = this.#entries.get(file);
    if (kept?.stamp === stamp) return kept.facts;
    // Only a file not seen before needs the probe, which is slow to load.
    const { probeFile } = await import('../media/probe.ts');
    const probed = await probeFile(path);
    const facts: FileFacts = probed.ok
      ? { state: 'media', media: probed.value }
      : { state: 'unreadable', reason: probed.problem };
    this.#entries.set(file, { stamp, facts });
    this.#changed = true;
    return facts;
  }

  /** Keeps what was found out; a folder that cannot be written to only makes the next check slower. */
  async close(): Promise<void> {
    if (!this.#changed) return;
    try {
      await privateFolder(this.#content);
      await placeFile(
        cacheFile(this.#content),
        JSON.stringify({ version: VERSION, files: Object.fromEntries(this.#entries) }),
      );
    } catch {
      // Read-only content is fine to check.
    }
  }
}

function cacheFile(content: string): string {
  return join(content, '.liftside', 'probe.json');
}

function isKept(value: unknown): value is { version: number; files: Record<string, Entry> } {
  return (
    typeof value === 'object' && value !== null && 'version' in value && value.version === VERSION && 'files' in value
  );
}
