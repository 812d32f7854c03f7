import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';
import { isUnnamedWrench } from './wrenches.ts';

export default rule({
  id: 'tool-kind-missing',
  severity: 'error',
  why: 'A torque wrench that is not known as one is compared with no torque that it sets.',
  bad: replaceIn('kit.yaml', '    kind: torque-wrench\n', ''),
  says: '5:5 the tool Torque wrench, large has a scale in N·m, but no kind',
  good: SOUND,

  *around({ kit, broken }) {
    for (const [id, tool] of Object.entries(kit.tools ?? {}))
      if (!broken.has(id) && isUnnamedWrench(tool))
        yield {
          place: placeOf(kit, 'tools', id),
          message: `the tool ${tool.title} has a scale in ${tool.range?.unit}, but no kind`,
          help: 'add kind: torque-wrench, or kind: other where it tightens nothing',
        };
  },
});
