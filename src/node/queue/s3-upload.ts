import { open } from 'node:fs/promises';
import { OutsideFailure } from '../failure.ts';
import { sideBySide } from '../media/side-by-side.ts';
import { type S3Client, sumOf } from './s3-client.ts';

/** Sums are kept of blocks of this size, which are fetched as a whole, bytes. */
export const BLOCK = 256 << 10;
/** What is larger is sent in parts of this size, bytes; whole blocks, and no less than 5 MiB, as S3 wants it. */
const PART = 16 << 20;
/** S3 takes no more parts than 10 000. */
const MOST_PARTS = 9000;
/** Parts under way at the same time. */
const AT_ONCE = 3;

/** A file as it was sent: its size, and the SHA-256 of each block. */
export interface Sent {
  readonly bytes: number;
  readonly sums: readonly string[];
}

/** Sends a file: in parts where it is large. What is left of a failed one is taken back. */
export async function upload(path: string, key: string, client: S3Client): Promise<Sent> {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    const part = PART * Math.ceil(size / (PART * MOST_PARTS) || 1);
    const sums: string[] = [];
    const read = async (index: number) => {
      const bytes = new Uint8Array(Math.min(part, size - index * part));
      for (let at = 0; at < bytes.length; ) {
        const { bytesRead } = await file.read(bytes, at, bytes.length - at, index * part + at);
        if (bytesRead === 0) throw changed(path);
        at += bytesRead;
      }
      for (let at = 0; at < bytes.length; at += BLOCK)
        sums[(index * part + at) / BLOCK] = sumOf(bytes.subarray(at, at + BLOCK));
      return bytes;
    };
    if (size <= part) await client.ask('PUT', key, { body: await read(0) });
    else await inParts(key, Math.ceil(size / part), read, client);
    return { bytes: size, sums };
  } finally {
    await file.close();
  }
}

async function inParts(
  key: string,
  count: number,
  read: (index: number) => Promise<Uint8Array>,
  client: S3Client,
): Promise<void> {
  const begun = await client.ask('POST', key, { query: { uploads: '' } });
  const uploadId = /<UploadId>([^<]+)<\/UploadId>/.exec((await begun?.text()) ?? '')?.[1];
  if (uploadId === undefined) throw unlike(client);
  try {
    const tags: string[] = [];
    const send = async (index: number) => {
      const query = { partNumber: String(index + 1), uploadId };
      const taken = await client.ask('PUT', key, { query, body: await read(index) });
      const tag = taken?.headers.get('etag');
      if (!tag || !/^"?[\w-]+"?$/.test(tag)) throw unlike(client);
      tags[index] = tag;
    };
    await sideBySide(
      undefined,
      Array.from({ length: count }, (_, index) => () => send(index)),
      AT_ONCE,
    );
    const list = tags.map((tag, i) => `<Part><PartNumber>${i + 1}</PartNumber><ETag>${tag}</ETag></Part>`).join('');
    const body = Buffer.from(`<CompleteMultipartUpload>${list}</CompleteMultipartUpload>`);
    const ended = await client.ask('POST', key, { query: { uploadId }, body });
    // It may begin to answer before it knows how it ends.
    if (!(await ended?.text())?.includes('CompleteMultipartUploadResult')) throw unlike(client);
  } catch (error) {
    await client.ask('DELETE', key, { query: { uploadId } }).catch(() => undefined);
    throw error;
  }
}

function changed(path: string): OutsideFailure {
  return new OutsideFailure(`${path} became shorter while it was sent to the store`, 'run it again when it is done');
}

function unlike({ shown }: S3Client): OutsideFailure {
  return new OutsideFailure(
    `the server of the store ${shown} did not take a file in parts`,
    'run it again; if it stays so, the server does not speak S3 as it should',
  );
}
