import { relative, resolve } from 'node:path';
import { check, programmeFindings } from '../../core/check/index.ts';
import { VERSIONS, type Version } from '../../core/media/index.ts';
import type { Diagnostic, Recording, Shop } from '../../core/model/index.ts';
import { programmeCards } from '../../core/programme/index.ts';
import { didYouMean, plural } from '../../core/read/index.ts';
import { isoDay, printClockTime } from '../../core/time/index.ts';
import { mendFolder } from '../files/index.ts';
import { CardDesk } from '../media/draw-cards.ts';
import { inlaysOf } from '../media/inlays.ts';
import { findSpeech } from '../media/kept-analysis.ts';
import { prepare } from '../media/prepare.ts';
import { renderReport } from '../media/render.ts';
import { renderRecording } from '../media/render-recording.ts';
import { cardsFingerprint, findRendered, renderedFolder } from '../media/rendered.ts';
import { chromiumFor } from '../programs/index.ts';
import { type Context, command, EXIT } from './command.ts';
import { withFootage } from './footage-place.ts';

/** Loudness of speech for the web, LUFS (common practice, no source); EBU R 128 asks for −23 in broadcasting. */
const TARGET = -16;

export default command({
  name: 'render',
  summary: 'the edited programme as MP4 with chapters and captions, poster and seek pictures',
  args: ['<recording>'],
  options: [
    {
      name: 'to',
      value: 'DIR',
      help: 'a new or empty folder, or one that holds an earlier one; .liftside/rendered in the content folder when left out',
    },
    { name: 'loudness', value: 'LUFS', help: `loudness to aim at, or "keep"; ${TARGET} when left out` },
    {
      name: 'level-on',
      value: 'WHAT',
      choices: ['speech', 'programme'],
      help: 'what comes to that loudness: speech, where analyse has told it from tools, or the whole as EBU R 128 has it',
    },
    { name: 'also', value: 'KINDS', help: `further forms, with commas between: ${VERSIONS.join(', ')}` },
    { name: 'burn', help: 'draw corrections, cited specs and signal words into the picture, for a video host' },
    { name: 'again', help: 'render even if a programme made from this edit list is there' },
    { name: 'json', help: 'one JSON document about what was made' },
  ],

  async run([id = ''], flags, context) {
    const { load, say, out, content, cwd } = context;
    const { shop, diagnostics } = await load();
    const recording = findRecording(shop, id, context);
    if (typeof recording === 'number') return recording;
    const target = targetOf(flags.text('loudness'));
    if (target === 'wrong') {
      say(`--loudness takes a number of LUFS from -40 to -5, such as ${TARGET}, or "keep"`);
      return EXIT.callIsWrong;
    }
    const versions = versionsOf(flags.text('also'));
    if (typeof versions === 'string') {
      say(`"${versions}" is none of ${VERSIONS.join(', ')}`);
      return EXIT.callIsWrong;
    }
    const to = flags.text('to');
    const speech = await findSpeech(content, shop.recordings);
    const heard = speech.get(recording.id);
    const found = check(shop, diagnostics, { today: isoDay(context.now()), speech });
    const open = programmeFindings(shop, recording, found);
    for (const line of openInWords(open)) say(line);
    if (flags.has('burn') && open.some(({ severity }) => severity === 'error')) {
      say(
        'nothing is burnt into the picture while errors are open: what a video host shows cannot be mended afterwards',
      );
      return EXIT.contentHasErrors;
    }
    if (flags.text('level-on') === 'speech' && heard?.by !== 'network')
      say('note: speech has not been told from tools here, so that the whole is levelled; liftside analyse does it');
    const cards = flags.has('burn') ? programmeCards(shop, recording) : undefined;
    const folder = to === undefined ? renderedFolder(content, recording.id, cards !== undefined) : resolve(cwd, to);
    const here = relative(cwd, folder) || '.';
    await mendFolder(folder);
    if (to === undefined && !flags.has('again') && !flags.has('level-on')) {
      const there = await findRendered(content, recording, cards && cardsFingerprint(cards));
      const same = there && (there.manifest.loudness ?? undefined) === (target ?? undefined);
      if (same && versions.every((version) => there.manifest.files[version])) {
        say(`${here} already holds this programme; --again renders it anew`);
        if (flags.has('json')) out(JSON.stringify({ folder, ...there.manifest }, null, 2));
        return EXIT.fine;
      }
    }
    const began = context.now().getTime();
    const desk = cards && new CardDesk(await chromiumFor('cards are drawn', context.env));
    const making = withFootage(recording, shop, context, async (place) => {
      const prepared = await prepare(content, recording, place.tools, place.signal);
      for (const warning of prepared.warnings) say(`note: ${warning}`);
      const wishes = {
        ...{ folder, versions, inlays: inlaysOf(shop, recording) },
        ...(target !== undefined && { target }),
        ...(heard?.by === 'network' && flags.text('level-on') !== 'programme' && { speech: heard.stretches }),
        ...(cards && desk && { burn: { cards, desk } }),
      };
      const { made, manifest } = await renderRecording(prepared, wishes, place);
      const fps = prepared.rate.numerator / prepared.rate.denominator;
      if (made) for (const line of renderReport(made, fps, target)) say(line);
      const took = Math.round((context.now().getTime() - began) / 1000);
      say(`${printClockTime(manifest.length)} of programme in ${here}, made in ${took} s`);
      if (flags.has('json')) out(JSON.stringify({ folder, ...manifest }, null, 2));
      return EXIT.fine;
    });
    return making.finally(() => desk?.close());
  },
});

/** The recording of that id, or the exit code after saying why there is none. */
export function findRecording(shop: Shop, id: string, { say }: Pick<Context, 'say'>): Recording | 1 | 2 {
  const recording = shop.recordings.find((r) => r.id === id);
  if (recording) return recording;
  if (shop.broken.has(id)) {
    say(`the recording "${id}" cannot be read; liftside check says why`);
    return EXIT.contentHasErrors;
  }
  const ids = shop.recordings.map((r) => r.id);
  say(`no recording "${id}": ${didYouMean(id, ids)}`);
  return EXIT.callIsWrong;
}

/** Named at each render, worst first. */
const NAMED = 12;

/** The findings that are open when a programme is made, a line each. */
function openInWords(open: readonly Diagnostic[]): string[] {
  if (open.length === 0) return [];
  const rows = open.slice(0, NAMED).map(({ severity, place: { file, start }, message }) => {
    return `  ${severity}  ${file}:${start.line}  ${message}`;
  });
  const more = open.length > NAMED ? [`  and ${open.length - NAMED} more`] : [];
  return [
    `note: ${plural(open.length, 'finding')} of this programme ${open.length === 1 ? 'is' : 'are'} open:`,
    ...rows,
    ...more,
  ];
}

function targetOf(text: string | undefined): number | undefined | 'wrong' {
  if (text === undefined) return TARGET;
  if (text === 'keep') return undefined;
  const value = Number(text);
  return Number.isFinite(value) && value >= -40 && value <= -5 ? value : 'wrong';
}

function versionsOf(text: string | undefined): Version[] | string {
  const asked = (text ?? '')
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '');
  const found: Version[] = [];
  for (const name of asked) {
    const version = VERSIONS.find((v) => v === name);
    if (!version) return name;
    if (!found.includes(version)) found.push(version);
  }
  return found;
}
