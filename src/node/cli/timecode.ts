import {
  type FrameRate,
  fail,
  findRate,
  frameAt,
  frameStart,
  framesPerDay,
  ok,
  type Parsed,
  parseClockTime,
  parseTimecode,
  printClockTime,
  printTimecode,
  RATE_NAMES,
  toSeconds,
} from '../../core/time/index.ts';
import { command, EXIT } from './command.ts';

export default command({
  name: 'timecode',
  summary: 'a timecode, frame number or clock time in every notation',
  args: ['<value>'],
  options: [
    { name: 'rate', value: 'RATE', choices: RATE_NAMES, help: 'frame rate; df counts drop-frame' },
    { name: 'json', help: 'one JSON document' },
  ],

  async run([value = ''], flags, { out, say }) {
    const rate = findRate(flags.text('rate') ?? '');
    if (!rate) {
      say(`--rate is one of ${RATE_NAMES.join(', ')}`);
      return EXIT.callIsWrong;
    }
    const frame = frameOf(value, rate);
    if (!frame.ok) {
      say(`${frame.problem}\n${frame.help}`);
      return EXIT.callIsWrong;
    }
    const notations = inEveryNotation(frame.value, rate);
    out(flags.has('json') ? JSON.stringify(notations) : table(notations, rate));
    return EXIT.fine;
  },
});

interface Notations {
  readonly frame: number;
  readonly seconds: number;
  readonly timecode: string;
  readonly clock: string;
}

/** The frame that a text names: by its label, its number, or the clock time it is on screen at. */
function frameOf(text: string, rate: FrameRate): Parsed<number> {
  if (/^\d+$/.test(text)) {
    const frame = Number(text);
    return Number.isSafeInteger(frame * rate.ticksPerFrame)
      ? ok(frame)
      : fail(`frame ${text} lies more than 3 000 hours in`, 'count from the start of the recording');
  }
  if (/^\d+:\d+:\d+[:;]\d+$/.test(text)) return parseTimecode(text, rate);
  const clock = parseClockTime(text);
  if (clock.ok) return ok(frameAt(clock.value, rate));
  return fail(
    `"${text}" is no timecode, frame number or clock time`,
    'write 01:02:03:04 (01:02:03;04 when drop-frame), 1234, or 1:02:03.5',
  );
}

function inEveryNotation(frame: number, rate: FrameRate): Notations {
  const start = frameStart<'recording'>(frame, rate);
  return { frame, seconds: toSeconds(start), timecode: printTimecode(frame, rate), clock: printClockTime(start) };
}

function table({ frame, seconds, timecode, clock }: Notations, rate: FrameRate): string {
  const wrapped = frame >= framesPerDay(rate) ? '  (the labels start again after 24 hours)' : '';
  const exact = `${frame} × ${rate.denominator}/${rate.numerator} s`;
  return [
    `timecode  ${timecode}${wrapped}`,
    `frame     ${frame}`,
    `clock     ${clock}`,
    `seconds   ${seconds}  (${exact})`,
  ].join('\n');
}
