import { crc32, deflateRawSync } from 'node:zlib';

/** One entry of a zip file that is written letter by letter, right or wrong. */
export interface RawEntry {
  readonly name: string;
  readonly text?: string;
  /** What the directory says it is called; as its header does when left out. */
  readonly listedAs?: string;
  readonly deflated?: boolean;
  readonly crc?: number;
  /** What both headers claim it holds, bytes. */
  readonly claims?: number;
  readonly flags?: number;
  /** Of Unix. */
  readonly mode?: number;
}

/** A zip file (PKWARE APPNOTE 6.3.x, 4.3.7, 4.3.12, 4.3.16), made without any library, so that it can be wrong. */
export function rawZip(entries: readonly RawEntry[]): Buffer {
  const parts: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const {
    name,
    text = '',
    listedAs = name,
    deflated = false,
    flags = 0x800,
    mode = 0o100644,
    ...rest
  } of entries) {
    const bytes = Buffer.from(text);
    const packed = deflated ? deflateRawSync(bytes) : bytes;
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt16LE(flags, 2);
    common.writeUInt16LE(deflated ? 8 : 0, 4);
    common.writeUInt16LE(33, 8);
    common.writeUInt32LE(rest.crc ?? crc32(bytes), 10);
    common.writeUInt32LE(packed.length, 14);
    common.writeUInt32LE(rest.claims ?? bytes.length, 18);
    const local = Buffer.from(common);
    local.writeUInt16LE(Buffer.byteLength(name), 22);
    parts.push(Buffer.from('PK\x03\x04', 'latin1'), local, Buffer.from(name), packed);
    const central = Buffer.from(common);
    central.writeUInt16LE(Buffer.byteLength(listedAs), 22);
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE((mode << 16) >>> 0, 6);
    tail.writeUInt32LE(offset, 10);
    directory.push(Buffer.from('PK\x01\x02\x14\x03', 'latin1'), central, tail, Buffer.from(listedAs));
    offset += 4 + 26 + Buffer.byteLength(name) + packed.length;
  }
  const list = Buffer.concat(directory);
  const end = Buffer.alloc(22);
  end.write('PK\x05\x06', 'latin1');
  end.writeUInt16LE(entries.length, 8);
  end.writeUInt16LE(entries.length, 10);
  end.writeUInt32LE(list.length, 12);
  end.writeUInt32LE(offset, 16);
  return Buffer.concat([...parts, list, end]);
}
