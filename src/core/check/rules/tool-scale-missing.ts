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

  *check({ kit, broken }) {
    for (const [id, { title, kind, range, resolution }] of Object.entries(kit.tools ?? {})) {
      if (broken.has(id)) continue;
      // A scale without its end is compared with nothing at that end.
      const whole = range?.min !== undefined && range.max !== undefined;
      const lacks = [
        ...(kind === 'torque-wrench' && !whole
          ? [range === undefined ? 'range' : `range from ${range.min ?? '…'} to ${range.max ?? '…'}`]
          : []),
        ...((kind === 'torque-wrench' || kind === 'measuring-tool') && resolution === undefined ? ['resolution'] : []),
      ];
      if (lacks.length > 0)
        yield {
          place: placeOf(kit, 'tools', id),
          message: `the tool ${title} has no ${lacks.join(' and no ')}`.replace('no range from', 'only a range from'),
          help: `add ${lacks.map((key) => (key !== 'resolution' ? 'range: its scale from min to max' : 'resolution: one mark of its scale')).join(', and ')}`,
        };
    }
  },
});
