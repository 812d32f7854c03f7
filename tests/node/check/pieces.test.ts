import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, onTestFinished, test } from 'vitest';
import { findQuantities } from '../../../src/core/heard/index.ts';
import { KeptHearing } from '../../../src/node/check/kept-hearing.ts';
import { LostPiece, type Piece, PieceFolder, pieceOf } from '../../../src/node/check/pieces.ts';

/** Gone after the test. */
function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'liftside-pieces-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

const text = (piece: Piece) => Buffer.from(piece.bytes()).toString();

/** Stores pieces as a check does, and gives them as the next one finds them. */
function keep(folder: string, pieces: readonly Piece[]): readonly Piece[] {
  const store = new PieceFolder(folder);
  const places = store.store(pieces);
  store.clear(places);
  return pieces.map((piece) => {
    const place = places.get(piece);
    if (!place) throw new Error('a piece has no place');
    return new PieceFolder(folder).at(place);
  });
}

test('pieces are read back as they were, whatever was changed before, and lie in few files', () => {
  const change = fc.array(fc.tuple(fc.nat(9), fc.string({ maxLength: 2000 })), { minLength: 1, maxLength: 3 });
  fc.assert(
    fc.property(fc.array(change, { maxLength: 40 }), (changes) => {
      const folder = newFolder();
      const wanted = Array.from({ length: 10 }, (_, n) => `piece ${n}`);
      let kept = keep(
        folder,
        wanted.map((one) => pieceOf(Buffer.from(one))),
      );
      for (const change of changes) {
        const next = [...kept];
        for (const [at, to] of change) {
          wanted[at] = to;
          next[at] = pieceOf(Buffer.from(to));
        }
        kept = keep(folder, next);
        expect(kept.map(text)).toEqual(wanted);
        expect(readdirSync(folder).length).toBeLessThanOrEqual(13);
      }
    }),
    { numRuns: 30 },
  );
});

test('what is no longer kept goes, at the latest when it is half of a file', () => {
  const folder = newFolder();
  const [first, ...others] = keep(
    folder,
    ['a'.repeat(1000), 'b'.repeat(400), 'c'.repeat(400)].map((one) => pieceOf(Buffer.from(one))),
  );
  const [before] = readdirSync(folder);
  expect(keep(folder, others).map(text)).toEqual(['b'.repeat(400), 'c'.repeat(400)]);
  expect(readdirSync(folder)).not.toContain(before);
  expect(() => first?.bytes()).toThrow(LostPiece);
});

test('a piece that was changed, cut short or taken away is not believed', () => {
  const folder = newFolder();
  const [piece] = keep(folder, [pieceOf(Buffer.from('ninety-eight'))]);
  const path = join(folder, readdirSync(folder)[0] ?? '');
  for (const bad of ['ninety-seven', 'ninety', '']) {
    writeFileSync(path, bad);
    expect(() => piece?.bytes()).toThrow(LostPiece);
  }
  rmSync(path);
  expect(() => piece?.bytes()).toThrow(LostPiece);
});

test('what is heard in a text is kept by the text, and not looked for again', () => {
  const texts = [
    'Torque it to 98 newton metres.',
    'Lay the chain on the sprocket.',
    'Two to three millimetres of slack.',
    '',
  ];
  const first = new KeptHearing(undefined);
  expect(first.kept).toBeUndefined();
  const heard = texts.map(first.hear);
  expect(heard).toEqual(texts.map((one) => findQuantities(one)));
  expect(heard.map(({ length }) => length)).toEqual([1, 0, 1, 0]);
  const again = new KeptHearing(pieceOf(first.kept ?? Buffer.alloc(0)));
  // The same things, and not others that are alike: nobody has looked for them.
  const known = texts.map(again.hear);
  expect(known).toEqual(heard);
  expect(known[0]).toBe(again.hear(texts[0] ?? ''));
  expect(again.hear('Torque it to 99 newton metres.')).toEqual(findQuantities('Torque it to 99 newton metres.'));
  // One text that is no longer there is no longer kept.
  const less = new KeptHearing(pieceOf(again.kept ?? Buffer.alloc(0)));
  less.hear(texts[1] ?? '');
  expect(less.kept?.length).toBeLessThan(first.kept?.length ?? 0);
});
