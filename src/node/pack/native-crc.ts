import { createRequire } from 'node:module';
import { crc32 } from 'node:zlib';

// The writer of zip files computes the sum of every byte (CRC-32, ISO/IEC 21320-1 by way of APPNOTE 4.4.7) in JavaScript,
// 2.6 s of a processor a gigabyte; Node has it in C, 0.2 s. It is called through this one property of its package.
const writer = createRequire(createRequire(import.meta.url).resolve('yazl'));
const sums = writer('buffer-crc32') as { unsigned: (piece: Buffer, before?: number) => number };
sums.unsigned = (piece, before = 0) => crc32(piece, before);
