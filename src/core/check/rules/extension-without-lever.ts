import { toolsUsed } from '../../programme/index.ts';
import { rule } from '../rule.ts';
import { both, replaceIn } from '../sample.ts';
import { stepsOf } from './find.ts';

const ADAPTER = '  crowfoot:\n    title: Crowfoot, 22 mm\n    extension: {nominal: 40, unit: mm}\n  grinder:';
const uses = replaceIn(
  'lessons/chain.mdx',
  '<Uses tool="torque-wrench" />',
  '<Uses tool="torque-wrench" /> <Uses tool="crowfoot" />',
);

export default rule({
  id: 'extension-without-lever',
  severity: 'warning',
  why: 'With an extension in line the wrench has to be set lower, and nobody can work out how far without its length.',
  bad: both(replaceIn('kit.yaml', '  grinder:', ADAPTER), uses),
  says: '17:7 "Tighten the nut" lengthens Torque wrench, large, whose lever is not known',
  good: both(
    {
      files: {
        'kit.yaml':
          replaceIn('kit.yaml', '  grinder:', ADAPTER)
            .files['kit.yaml']?.replace('unit: N·m}\n', 'unit: N·m}\n    lever: {nominal: 480, unit: mm}\n')
            // Finer marks: what is set is less than what the nut gets, and so is its tolerance.
            .replace('resolution: {nominal: 1,', 'resolution: {nominal: 0.5,') ?? '',
      },
    },
    uses,
  ),

  *lesson(shop) {
    for (const { step } of stepsOf(shop)) {
      const tools = toolsUsed(shop.kit, step);
      if (!tools.some(({ tool }) => tool.extension)) continue;
      for (const { tool, place } of tools)
        if (tool.kind === 'torque-wrench' && !tool.lever)
          yield {
            place,
            message: `"${step.title}" lengthens ${tool.title}, whose lever is not known`,
            help: 'give lever: in the kit, from drive to the middle of the grip',
          };
    }
  },
});
