import { type EditCommand, findCommand, openSession, type Session } from '../../../src/core/edit/index.ts';
import type { FileFacts } from '../../../src/core/model/index.ts';
import { fromSeconds, printClockTime, type Ticks } from '../../../src/core/time/index.ts';

export const RECORDING = `# The long take
title: Brake pads, uncut
files:
  - file: media/pads.mp4   # one card was enough
rate: "25"
edit:
  - {in: "0:00:10", out: "0:05:00"}   # from the clap
  - {in: "0:06:00", out: "0:30:00"}
people: []
`;

export const LESSON = `---
title: Front brake pads   # as on the poster
recording: pads
machine: tarn-420
---
Bring a clean rag.

## Get ready
<Cue at="0:00:12" />

### Put the bike on its stand
<Cue at="0:00:15" until="0:01:00" />
Both wheels straight.

### Look at the pads
Less than a millimetre is too thin.

## Take the caliper off

### Open the two bolts
<Cue at="0:07:00" />
<KeyPoint why="the hose must not carry it">Hold the caliper.</KeyPoint>

### Push the pistons back

## Close up
### Tighten the bolts
<Cue at="0:20:00" />
`;

export function facts(seconds = 1800, framesPerSecond = 25): (file: string) => FileFacts {
  return () => ({
    state: 'media',
    media: { duration: fromSeconds(seconds), framesPerSecond, width: 640, height: 360 },
  });
}

export function open(recording = RECORDING, lesson: string | null = LESSON, look = facts()): Session {
  const texts = new Map([['recordings/pads.yaml', recording]]);
  if (lesson !== null) texts.set('lessons/pads.mdx', lesson);
  return openSession({ recordingFile: 'recordings/pads.yaml', lessonFile: 'lessons/pads.mdx', facts: look }, texts);
}

export const at = (seconds: number) => fromSeconds<'recording'>(seconds);

/** Runs a command that must not refuse. */
export function run(session: Session, command: EditCommand | string, words?: string): Session {
  const edit = typeof command === 'string' ? findCommand(command)?.run : command;
  if (!edit) throw new Error(`no command ${String(command)}`);
  const outcome = edit(session, words);
  if ('refused' in outcome) throw new Error(`refused: ${outcome.refused}`);
  return outcome.session;
}

/** Why a command refuses; an error where it does not. */
export function refusal(session: Session, command: string, words?: string): string {
  const outcome = findCommand(command)?.run?.(session, words);
  if (!outcome || !('refused' in outcome)) throw new Error(`${command} was not refused`);
  return outcome.refused;
}

export function label(session: Session, command: string, words?: string): string | undefined {
  const outcome = findCommand(command)?.run?.(session, words);
  return outcome && 'session' in outcome ? outcome.label : undefined;
}

export function playheadAt(session: Session, seconds: number): Session {
  return { ...session, playhead: at(seconds) };
}

export function choosing(session: Session, title: string): Session {
  const passage = session.view.passages.find((p) => p.title === title);
  if (!passage) throw new Error(`no passage ${title}`);
  return { ...session, content: { ...session.content, chosen: passage.id } };
}

export const lessonText = (session: Session) => session.content.texts.get('lessons/pads.mdx') ?? '';
export const recordingText = (session: Session) => session.content.texts.get('recordings/pads.yaml') ?? '';
export const keptText = (session: Session) =>
  session.view.kept.map((kept) => `${clock(kept.start)}-${clock(kept.end)}`).join(' ');
const clock = (moment: Ticks<'recording'>) => printClockTime(moment);

/** The lines that differ: `-` gone, `+` new, in the order of the text. */
export function diffLines(before: string, after: string): string[] {
  const a = before.split('\n');
  const b = after.split('\n');
  const rows: number[][] = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      rows[i]![j] = a[i] === b[j] ? rows[i + 1]![j + 1]! + 1 : Math.max(rows[i + 1]![j]!, rows[i]![j + 1]!);
  const out: string[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      i++;
      j++;
    } else if (j >= b.length || (i < a.length && rows[i + 1]![j]! >= rows[i]![j + 1]!)) out.push(`-${a[i++]}`);
    else out.push(`+${b[j++]}`);
  }
  return out;
}
