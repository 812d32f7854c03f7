/**
 * The packets of an ADTS stream, headers included.
 *
 * @throws RangeError where no packet begins
 * Source: ISO/IEC 13818-7, 6.2: 12 bits of ones, then in bits 30 to 42 the length of the packet in bytes.
 */
export function packetsOf(stream: Buffer): Buffer[] {
  const packets: Buffer[] = [];
  for (let at = 0; at + 7 <= stream.length; ) {
    if (stream.readUInt16BE(at) >> 4 !== 0xfff) throw new RangeError(`no ADTS packet begins at byte ${at}`);
    const length =
      ((stream.readUInt8(at + 3) & 3) << 11) | (stream.readUInt8(at + 4) << 3) | (stream.readUInt8(at + 5) >> 5);
    if (length < 7) throw new RangeError(`the ADTS packet at byte ${at} has no length`);
    packets.push(stream.subarray(at, at + length));
    at += length;
  }
  return packets;
}
