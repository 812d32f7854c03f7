import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

export default rule({
  id: 'tool-scale-missing',
  severity: 'warning',
  why: 'Without its scale nobody can say whether a tool can set, or read, what it is used for.',
  bad: replaceIn('kit.yaml', '    range: {min: 40, max: 200, unit: N·m}\n', ''),
  says: '5:5 the tool Torque wrench, large has no range',
  good: replaceIn(
    'kit.yaml',
    'grinder:\n',
    'rule:\n    title: Steel rule\n    kind: measuring-tool\n    resolution: {nominal: 0.5, unit: mm}\n  grinder:\n',
  ),

  *around({ kit, broken }) {
    for (const [id, { title, kind, range, resolution }] of Object.entries(kit.tools ?? {})) {
      if (broken.has(id)) continue;
      // A scale without its end is compared with nothing at that end.
      const whole = range?.min !== undefined && range.max !== undefined;
      const half = range && `only a range from ${range.min ?? '…'} to ${range.max ?? '…'}`;
      const lacks = [
        ...(kind === 'torque-wrench' && !whole
          ? [{ has: half ?? 'no range', add: 'range: its scale from min to max' }]
          : []),
        ...((kind === 'torque-wrench' || kind === 'measuring-tool') && resolution === undefined
          ? [{ has: 'no resolution', add: 'resolution: one mark of its scale' }]
          : []),
      ];
      if (lacks.length > 0)
        yield {
          place: placeOf(kit, 'tools', id),
          message: `the tool ${title} has ${lacks.map(({ has }) => has).join(' and ')}`,
          help: `add ${lacks.map(({ add }) => add).join(', and ')}`,
        };
    }
  },
});
