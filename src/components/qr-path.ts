import { encode } from 'uqr';

/** A QR code as one SVG path: modules as unit squares, runs in a row joined. */
export function qrPath(text: string): { path: string; size: number } {
  const { data, size } = encode(text, { ecc: 'M', border: 4 });
  const runs = data.flatMap((row, y) => {
    const found: string[] = [];
    for (let x = 0; x < row.length; x++) {
      if (!row[x]) continue;
      const from = x;
      while (row[x + 1]) x++;
      found.push(`M${from} ${y}h${x - from + 1}v1h${from - x - 1}z`);
    }
    return found;
  });
  return { path: runs.join(''), size };
}
