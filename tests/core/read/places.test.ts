import { expect, test } from 'vitest';
import { SOUND_SHOP, sampleContent } from '../../../src/core/check/index.ts';
import { type Place, placeOf } from '../../../src/core/model/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

const { texts, facts } = sampleContent({ files: {} });

/** The stretch of text a place points at. */
function at(place: Place, all: ReadonlyMap<string, string> = texts): string {
  return (all.get(place.file) ?? '').slice(place.start.offset, place.end.offset);
}

test('every value of a YAML file knows where it stands', () => {
  const { shop } = readShop(texts, facts);
  const [recording] = shop.recordings;
  const [machine] = shop.machines;
  expect(at(placeOf(recording!, 'edit', 1, 'in'))).toBe('"0:06:00"');
  expect(at(placeOf(recording!, 'people', 0, 'role'))).toBe('instructor');
  expect(at(placeOf(machine!.specs[1]!, 'max'))).toBe('40');
  expect(at(placeOf(machine!.specs[0]!, 'source', 'page'))).toBe('41');
  expect(at(placeOf(shop.kit, 'tools', 'torque-wrench', 'range', 'unit'))).toBe('N·m');
  // A value that is not there is told at what it would stand in.
  expect(at(placeOf(machine!.specs[0]!, 'source', 'section'))).toBe('{document: manual, page: 41}');
});

test('every element of a lesson knows where it stands, whatever the line ends and marks before it', () => {
  const plain = SOUND_SHOP['lessons/chain.mdx']!;
  for (const text of [plain, plain.replaceAll('\n', '\r\n'), plain.replace('Crack it', 'Öl — 🛠 crack it')]) {
    const changed = new Map([...texts, ['lessons/chain.mdx', text]]);
    const { shop, diagnostics } = readShop(changed, facts);
    expect(diagnostics).toEqual([]);
    const [, tighten] = shop.lessons[0]!.chapters[0]!.steps;
    expect(at(tighten!.place, changed)).toBe('### Tighten the nut');
    expect(at(tighten!.cue!.place, changed)).toBe('<Cue at="0:06:10" />');
    expect(at(tighten!.cites[0]!.place, changed)).toBe('of="axle-nut"');
    expect(at(tighten!.uses[1]!.place, changed)).toBe('part="cotter-pin"');
  }
});

test('a byte order mark shifts nothing', () => {
  const marked = new Map([...texts].map(([file, text]) => [file, `\uFEFF${text}`]));
  expect(readShop(marked, facts)).toEqual(readShop(texts, facts));
});

test('a row with a fault is left out, the others stay, and citing it is not told again', () => {
  const text = SOUND_SHOP['specs/tarn-420.yaml']!.replace('    title: Rear axle nut\n', '').replace(
    'kind: length',
    'kind: lenght',
  );
  const { shop, diagnostics } = readShop(new Map([...texts, ['specs/tarn-420.yaml', text]]), facts);
  expect(diagnostics.map(({ rule, place }) => `${rule} ${place.start.line}`)).toEqual([
    'key-missing 8',
    'value-wrong 18',
  ]);
  expect(shop.machines[0]?.specs).toEqual([]);
  expect(shop.broken).toEqual(new Set(['axle-nut', 'chain-slack']));
});
