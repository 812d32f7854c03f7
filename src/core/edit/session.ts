import type { FileFacts, Lesson, Recording } from '../model/index.ts';
import { entriesOf } from '../programme/index.ts';
import { readShop } from '../read/index.ts';
import { type EditList, type Range, type Ticks, ticks } from '../time/index.ts';
import { inOrder, type LandmarkKind, type Landmarks, NO_LANDMARKS } from './landmarks.ts';
import { type Labels, labelsOf } from './moments.ts';
import { type Passage, passagesOf } from './passages.ts';

type Moment = Ticks<'recording'>;
/** Content texts by path relative to the content folder. */
export type Texts = ReadonlyMap<string, string>;

/** What undo gives back: texts, and what is chosen in them. */
export interface Content {
  readonly texts: Texts;
  /** Id of the chosen chapter or step. */
  readonly chosen?: string | undefined;
  /** Proposals that were answered with yes or no: they are not made again, whatever became of what they proposed. */
  readonly decided: readonly Decision[];
}

/** Which files are on the table. */
export interface Desk {
  /** Paths relative to the content folder. */
  readonly recordingFile: string;
  readonly lessonFile?: string | undefined;
  readonly facts: (file: string) => FileFacts;
}

/** The content as read: what the eye sees and commands reason about. */
export interface View {
  readonly recording?: Recording;
  readonly lesson?: Lesson;
  /** Text of the lesson as the passages count it, without a byte order mark. */
  readonly lessonText: string;
  readonly passages: readonly Passage[];
  readonly kept: EditList;
  readonly labels: Labels;
  /** 0 where the recording could not be measured. */
  readonly length: Moment;
}

/** A cut worth making or where a step seems to begin, with its reason. */
export interface Suggestion {
  readonly id: string;
  readonly range: Range<'recording'>;
  readonly reason: string;
  /** Title of the step that begins here; a cut where there is none. */
  readonly title?: string;
}

/** A proposal that was answered. It is known again by where it lies: footage that is measured anew moves it a little. */
export interface Decision {
  readonly kind: 'cut' | 'step';
  /** Ticks of recording time. */
  readonly start: number;
  readonly end: number;
  /** The lesson a step was proposed for. */
  readonly lesson?: string | undefined;
}

/**
 * How it plays: speed in times real time, backwards when negative; `programme` leaves out what is cut. `until` stops it;
 * what plays only so far may leave out what is cut for once, and `after` is how it was before.
 */
export interface Transport {
  readonly speed: number;
  readonly programme: boolean;
  readonly until?: Moment | undefined;
  readonly after?: boolean | undefined;
}

/** The transport once something else is asked for than to play so far. */
export function releaseTransport({ speed, programme, after }: Transport): Transport {
  return { speed, programme: after ?? programme };
}

/** The cutting room without a screen. Commands take one and give the next. */
export interface Session {
  readonly desk: Desk;
  readonly content: Content;
  readonly view: View;
  readonly playhead: Moment;
  readonly transport: Transport;
  readonly marks: { readonly in?: Moment | undefined; readonly out?: Moment | undefined };
  readonly snapping: boolean;
  readonly snapTo: readonly LandmarkKind[];
  readonly jumpBy: LandmarkKind;
  /** What was found in the footage; cuts and cues come from the content. */
  readonly found: Landmarks;
  readonly suggestions: readonly Suggestion[];
  /** The caption that is heard in the reading pass, by where it starts; nothing outside of the pass. */
  readonly reading?: Moment | undefined;
  /** How fast the reading pass plays, times real time. */
  readonly readingSpeed: number;
}

/** The content as read for one desk. */
export function viewOf(desk: Desk, texts: Texts): View {
  const wanted = [desk.recordingFile, desk.lessonFile, 'shop.yaml'];
  const subset = new Map([...texts].filter(([file]) => wanted.includes(file)));
  // Captions are long and no command asks for them: they are read once, elsewhere.
  const brief = (file: string): FileFacts => {
    const known = desk.facts(file);
    return known.state === 'text' ? { state: 'missing' } : known;
  };
  const { shop } = readShop(subset, brief);
  const recording = shop.recordings[0];
  const lesson = shop.lessons[0];
  const lessonText = (texts.get(desk.lessonFile ?? '') ?? '').replace(/^\uFEFF/, '');
  return {
    ...(recording ? { recording } : {}),
    ...(lesson ? { lesson } : {}),
    lessonText,
    passages: lesson ? passagesOf(lesson, lessonText) : [],
    kept: recording ? entriesOf(recording) : [],
    labels: labelsOf(recording),
    length: recording?.length ?? ticks(0),
  };
}

/**
 * A session over the texts of a recording and a lesson; the first chapter or step without a cue is chosen.
 *
 * @param decided proposals that were answered before
 */
export function openSession(desk: Desk, texts: Texts, decided: readonly Decision[] = []): Session {
  const view = viewOf(desk, texts);
  const first = view.passages.find((passage) => !passage.cue) ?? view.passages[0];
  return {
    desk,
    content: { texts, chosen: first?.id, decided },
    view,
    playhead: ticks(0),
    transport: { speed: 0, programme: false },
    marks: {},
    snapping: true,
    snapTo: ['silence', 'scene'],
    jumpBy: 'cut',
    found: NO_LANDMARKS,
    suggestions: [],
    readingSpeed: 1.5,
  };
}

/** The session with other content, read anew where a text of the desk changed. */
export function withContent(session: Session, content: Content): Session {
  const { desk, content: before } = session;
  const files = [desk.recordingFile, desk.lessonFile ?? '', 'shop.yaml'];
  const same = files.every((file) => content.texts.get(file) === before.texts.get(file));
  return { ...session, content, view: same ? session.view : viewOf(desk, content.texts) };
}

/** The session read anew, where more became known of the files that the recording names. */
export function readAgain(session: Session): Session {
  return { ...session, view: viewOf(session.desk, session.content.texts) };
}

/** The chosen chapter or step. */
export function chosenOf({ content, view }: Session): Passage | undefined {
  return view.passages.find(({ id }) => id === content.chosen);
}

/** Everything the playhead can jump to. */
export function landmarksOf({ view, found }: Session): Landmarks {
  return {
    ...found,
    // Who jumps from word to word does not want those that nobody will hear.
    caption: found.caption.filter((at) => view.kept.some(({ start, end }) => start <= at && at < end)),
    cut: inOrder(view.kept.flatMap((kept) => [kept.start, kept.end])),
    cue: inOrder(view.passages.flatMap(({ cue }) => (cue ? [cue.at] : []))),
  };
}
