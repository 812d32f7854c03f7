import { SIGNAL_WORDS } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { lesson } from '../sample.ts';
import { stepsOf } from './find.ts';

export default rule({
  id: 'signal-word-missing',
  severity: 'error',
  why: 'People can only take care if they have been told.',
  bad: lesson(
    '## Chain\n<Cue at="0:00:20" />\n\n### Cut the chain\n<Cue at="0:00:30" />\n<Uses tool="grinder" /> Cut a link.',
  ),
  says: '11:7 "Cut the chain" uses Angle grinder, which throws sparks and splinters, without a <Warning>',
  good: lesson(
    '## Chain\n<Cue at="0:00:20" />\n\n### Cut the chain\n<Cue at="0:00:30" />\n<Uses tool="grinder" /> Cut a link.\n<Warning>Sparks: eyes and sleeves covered.</Warning>',
  ),

  *lesson(shop) {
    const { tools, supplies } = shop.kit;
    for (const { chapter, step } of stepsOf(shop))
      for (const { group, id, place } of step.uses) {
        const thing = group === 'tool' ? tools?.[id] : group === 'supply' ? supplies?.[id] : undefined;
        const { signal } = thing ?? {};
        if (!thing || !signal) continue;
        const needed = SIGNAL_WORDS.indexOf(signal);
        const given = [...chapter.signals, ...step.signals].some(({ word }) => SIGNAL_WORDS.indexOf(word) <= needed);
        if (given) continue;
        const element = `<${signal.charAt(0).toUpperCase()}${signal.slice(1)}>`;
        yield {
          place,
          message: `"${step.title}" uses ${thing.title}${thing.hazard ? `, which ${thing.hazard},` : ''} without a ${element}`,
          help: `say in ${element} what can happen and how it is avoided`,
        };
      }
  },
});
