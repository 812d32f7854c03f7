import type { Angle } from '../../core/model/index.ts';
import { fromSeconds, ok, type Parsed, printSignedTime, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { setYaml } from '../../core/write/index.ts';
import { saveText } from '../files/save.ts';
import { analyseRecording } from '../media/analyse.ts';
import type { Analysis } from '../media/kept-analysis.ts';
import { command, EXIT } from './command.ts';
import { withFootage } from './footage-place.ts';
import { findRecording } from './render.ts';

/** What is written stays where it lies this near to what was found, at both ends of the file, s. */
const SAME = 0.005;

type AngleFound = Analysis['angles'][number];
interface Proposal {
  readonly angle: Angle;
  readonly found: AngleFound;
  /** Place in `angles:`. */
  readonly index: number;
  /** As written in the recording file: to the millisecond, to a tenth of a part per million. */
  readonly offset?: string;
  readonly drift: number;
  readonly agrees: boolean;
}

export default command({
  name: 'align',
  summary: 'where further cameras and sound recorders lie, by sound; --write puts it into the recording',
  args: ['<recording>'],
  options: [
    { name: 'write', help: 'write offset and drift of each into the recording file' },
    { name: 'json', help: 'one JSON document' },
  ],

  async run([id = ''], flags, context) {
    const { load, say, out, content } = context;
    const { shop, texts } = await load();
    const recording = findRecording(shop, id, context);
    if (typeof recording === 'number') return recording;
    if (recording.angles.length === 0) {
      say(`${id} names no further camera or recorder: list them under angles:, each with its id and file`);
      return EXIT.callIsWrong;
    }
    const analysis = await withFootage(recording, shop, context, (place) =>
      analyseRecording(content, recording, place),
    );
    const proposals = recording.angles.flatMap((angle, index): Proposal[] => {
      const found = analysis.angles[index];
      return found ? [proposalFor(angle, found, index)] : [];
    });
    if (flags.has('json')) out(JSON.stringify({ recording: id, angles: proposals.map(asJson) }));
    else out(proposals.map(inWords).join('\n'));
    const open = proposals.filter(({ offset, agrees }) => offset !== undefined && !agrees);
    if (open.length === 0) return EXIT.fine;
    const { file } = recording.origin.place;
    if (!flags.has('write')) {
      say(`--write puts ${open.length === 1 ? 'it' : 'them'} into ${file}`);
      return EXIT.fine;
    }
    const was = texts.get(file);
    const text = withOffsets(was ?? '', open);
    if (!text.ok) {
      say(`${file}: ${text.problem}; ${text.help}`);
      return EXIT.contentHasErrors;
    }
    const saved = await saveText(content, { file, was, text: text.value });
    if (!saved.ok) {
      say(`${saved.problem}; ${saved.help}`);
      return EXIT.outsideFailed;
    }
    say(`written to ${file}: ${open.map(({ angle }) => angle.id).join(', ')}`);
    return EXIT.fine;
  },
});

function proposalFor(angle: Angle, found: AngleFound, index: number): Proposal {
  const drift = Number((found.drift ?? 0).toFixed(1));
  if (found.offset === undefined) return { angle, found, index, drift: 0, agrees: false };
  const apart = (found.offset * TICKS_PER_SECOND - (angle.offset ?? 0)) / TICKS_PER_SECOND;
  const length = angle.facts.state === 'media' ? angle.facts.media.duration / TICKS_PER_SECOND : 0;
  const atEnd = apart + (length * (angle.drift - drift)) / 1e6;
  const agrees = angle.offset !== undefined && Math.abs(apart) <= SAME && Math.abs(atEnd) <= SAME;
  return { angle, found, index, offset: printSignedTime(fromSeconds(found.offset)), drift, agrees };
}

function withOffsets(source: string, proposals: readonly Proposal[]): Parsed<string> {
  return proposals.reduce<Parsed<string>>((text, { index, offset = '', drift, angle }) => {
    const placed = text.ok ? setYaml(text.value, ['angles', index, 'offset'], offset) : text;
    if (!placed.ok || (drift === 0 && angle.drift === 0)) return placed;
    return setYaml(placed.value, ['angles', index, 'drift'], drift);
  }, ok(source));
}

function asJson({ angle: { id, file }, found, offset, drift, agrees }: Proposal) {
  if (offset === undefined) return { id, file, refused: found.refused ?? '' };
  return { id, file, offsetSeconds: found.offset, offset, drift, confidence: found.confidence, agrees };
}

function inWords({ angle, found, offset, drift, agrees }: Proposal): string {
  const { id, file } = angle;
  if (offset === undefined) return `${id} (${file}): not aligned: ${found.refused ?? ''}`;
  const clock = drift === 0 ? 'its clock agrees' : `its clock ${Math.abs(drift)} ppm ${drift > 0 ? 'fast' : 'slow'}`;
  const share = `${Math.round((found.confidence ?? 0) * 100)} % of its sound agrees`;
  const kept = agrees ? '; so it is written' : angle.offset === undefined ? '' : '; written is another place';
  return `${id} (${file}): begins at ${offset}, ${clock}; ${share}${kept}`;
}
