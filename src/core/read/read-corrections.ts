import { type Correction, correctionsSchema, type Diagnostic, placeOf, type Recording } from '../model/index.ts';
import { isTimecode, parseMoment } from '../time/index.ts';
import { tell } from './faults.ts';
import type { Points } from './points.ts';
import { labellingOf } from './read-recording.ts';
import { originsIn, readYaml } from './read-yaml.ts';

/** The corrections of a lesson from its YAML; one whose time cannot be read is left out and told. */
export function readCorrections(
  id: string,
  source: string,
  points: Points,
  recording: Recording | undefined,
): { corrections: readonly Correction[]; diagnostics: readonly Diagnostic[] } {
  const { value, origin, diagnostics: found } = readYaml(source, points, 0, correctionsSchema, 'corrections');
  const diagnostics = [...found];
  const labelling = labellingOf(recording);
  const originOf = originsIn(origin, 'corrections');
  const corrections = (value?.corrections ?? []).flatMap((written, index): Correction[] => {
    const own = originOf(index);
    const at = parseMoment(written.at, labelling);
    if (at.ok) return [{ ...written, lesson: id, moment: at.value, origin: own }];
    if (!(isTimecode(written.at) && labelling.rateTold))
      diagnostics.push(tell('time-wrong', placeOf({ origin: own }, 'at'), at.problem, at.help));
    return [];
  });
  return { corrections, diagnostics };
}
