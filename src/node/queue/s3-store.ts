import { mkdir, readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { OutsideFailure } from '../failure.ts';
import { fingerprint } from '../media/fingerprint.ts';
import { holdName, type MediaStore, NotInStore, type RemoteFile, storeName } from './media-store.ts';
import { PartlyHere } from './partly-here.ts';
import { S3Client, type S3Place, sumOf } from './s3-client.ts';
import { BLOCK, upload } from './s3-upload.ts';

/** What lies under one name: a file, or the files of a folder. Written last: what has none is not there. */
const entry = z.strictObject({
  block: z.literal(BLOCK),
  files: z.array(
    z.strictObject({
      /** Within the folder; empty where it is a single file. */
      name: z.string().regex(/^$|^[\w-][\w.-]{0,100}$/),
      bytes: z.number().int().min(0),
      /** SHA-256 of each block, in hexadecimal digits. */
      sums: z.array(z.string().regex(/^[0-9a-f]{64}$/)),
    }),
  ),
});
type Entry = z.infer<typeof entry>;

/** A bucket of an object store that speaks S3, or what lies in it under a prefix. */
export class S3Store implements MediaStore {
  readonly shown: string;
  readonly #client: S3Client;
  readonly #prefix: string;

  private constructor(client: S3Client, prefix: string) {
    this.#client = client;
    this.#prefix = prefix;
    this.shown = client.shown;
  }

  /** @throws OutsideFailure when the bucket is not there, or lets nobody in with these keys */
  static async open(place: S3Place, prefix: string): Promise<S3Store> {
    const shown = `s3://${place.bucket}${prefix === '' ? '' : `/${prefix}`}`;
    const client = await S3Client.of(place, shown);
    if (!(await client.ask('HEAD', '')))
      throw new OutsideFailure(
        `there is no bucket ${place.bucket} at ${place.endpoint}`,
        'make it there, or correct LIFTSIDE_STORE',
      );
    return new S3Store(client, prefix === '' ? '' : `${prefix}/`);
  }

  async has(name: string): Promise<boolean> {
    return (await this.#client.ask('HEAD', this.#entryKey(name))) !== undefined;
  }

  async put(path: string, name: string): Promise<void> {
    if (await this.has(name)) return;
    const isFolder = (await stat(path)).isDirectory();
    const names = isFolder ? (await readdir(path)).toSorted() : [''];
    const files: Entry['files'] = [];
    for (const each of names) {
      const { bytes, sums } = await upload(join(path, each), this.#dataKey(name, each), this.#client);
      files.push({ name: each, bytes, sums: [...sums] });
    }
    // A camera file that somebody copied another over meanwhile would lie there under a wrong name for ever.
    if (!isFolder && name.startsWith('file-') && storeName(await fingerprint(path)) !== name)
      throw new OutsideFailure(`${path} was changed while it was sent to the store`, 'run it again');
    await this.#client.ask('PUT', this.#entryKey(name), {
      body: Buffer.from(JSON.stringify(entry.parse({ block: BLOCK, files }))),
    });
  }

  async get(name: string, folder: string): Promise<string> {
    const { files } = await this.#entry(name);
    const path = join(folder, name);
    const single = files.length === 1 && files[0]?.name === '';
    await mkdir(single ? folder : path, { recursive: true });
    for (const file of files) {
      const here = await PartlyHere.at(single ? path : join(path, file.name), this.#remote(name, file));
      await here.fetchAll();
    }
    return path;
  }

  async remote(name: string): Promise<RemoteFile | undefined> {
    const [file, ...more] = (await this.#entry(name)).files;
    return file && more.length === 0 && file.name === '' ? this.#remote(name, file) : undefined;
  }

  #remote(name: string, { name: inside, bytes, sums }: Entry['files'][number]): RemoteFile {
    return {
      ...{ bytes, block: BLOCK },
      read: async (start, end) => {
        const headers = { range: `bytes=${start}-${end - 1}` };
        const answer = await this.#client.ask('GET', this.#dataKey(name, inside), { headers });
        if (!answer) throw new NotInStore(name, this.shown);
        const got = await this.#client.body(answer);
        if (got.length !== end - start || sums.length !== Math.ceil(bytes / BLOCK)) throw this.#spoiled(name);
        for (let at = 0; at < got.length; at += BLOCK)
          if (sumOf(got.subarray(at, at + BLOCK)) !== sums[(start + at) / BLOCK]) throw this.#spoiled(name);
        return got;
      },
    };
  }

  async #entry(name: string): Promise<Entry> {
    const answer = await this.#client.ask('GET', this.#entryKey(name));
    if (!answer) throw new NotInStore(name, this.shown);
    const text = Buffer.from(await this.#client.body(answer)).toString();
    const read = entry.safeParse(readJson(text));
    if (!read.success) throw this.#spoiled(name);
    return read.data;
  }

  #spoiled(name: string): OutsideFailure {
    return new OutsideFailure(
      `${name} in the store ${this.shown} is not what was put there`,
      `delete ${this.#entryKey(name)} there; the next run puts it there again`,
    );
  }

  #entryKey(name: string): string {
    return `${this.#prefix}entries/${holdName(name)}`;
  }

  #dataKey(name: string, inside: string): string {
    return `${this.#prefix}data/${holdName(name)}${inside === '' ? '' : `/${inside}`}`;
  }
}

function readJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
