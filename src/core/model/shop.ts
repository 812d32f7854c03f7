import type { z } from 'zod';
import type { Locale } from '../locale/index.ts';
import type { Quantity, QuantityProblem } from '../spec/index.ts';
import type { EditEntry, EditList, FrameGrid, FrameRate, Range, Ticks } from '../time/index.ts';
import type { Body } from './body.ts';
import type { Place, Read } from './place.ts';
import type { actualSchema } from './schema/actual.ts';
import type { classSchema } from './schema/class.ts';
import type { collectionsSchema } from './schema/collections.ts';
import type { correctionsSchema } from './schema/corrections.ts';
import type { kitSchema } from './schema/kit.ts';
import type { lessonSchema } from './schema/lesson.ts';
import type { questionsSchema } from './schema/questions.ts';
import type { recordingSchema } from './schema/recording.ts';
import type { shopSchema } from './schema/shop.ts';
import type { specRow, specsSchema } from './schema/specs.ts';
import type { wordsSchema } from './schema/words.ts';

/** What a probe found out about one media file. */
export interface MediaFacts {
  /** ticks */
  readonly duration: number;
  /** Ticks of sound, where there is picture and sound: cameras let it run a little longer or shorter. */
  readonly soundDuration?: number;
  /** frames per second, as measured; absent without a picture */
  readonly framesPerSecond?: number;
  /** Start of each picture, ticks from the first; only where they do not follow each other evenly. */
  readonly pictureStarts?: readonly number[];
  readonly width?: number;
  readonly height?: number;
  /** Timecode of the first frame, as the file carries it. */
  readonly startTimecode?: string;
}

/** A file the content names, as found on disk: what it is, or that it is missing or unreadable. */
export type FileFacts =
  | { readonly state: 'missing' }
  | { readonly state: 'unreadable'; readonly reason: string }
  | { readonly state: 'media'; readonly media: MediaFacts }
  | { readonly state: 'text'; readonly text: string }
  /** A still picture that a browser can show. */
  | { readonly state: 'picture' };

export interface ShopInfo extends Read, z.infer<typeof shopSchema> {}

/** A camera file, placed on the recording's clock. */
export interface CameraFile {
  /** Path relative to the content folder. */
  readonly file: string;
  readonly facts: FileFacts;
  /** Where it lies in recording time; empty when the file could not be measured. */
  readonly span: Range<'recording'>;
  /** Ticks by which its start timecode lies inside the file before; it then begins where that one ends. */
  readonly overlap: number;
  /** Frame number of its first frame's own label; absent when neither written nor carried by the file. */
  readonly startFrame?: number;
}

/** One caption: words as shown, and when. */
export interface Caption {
  /** As written; absent when the file gives none. */
  readonly id?: string;
  readonly at: Range<'recording'>;
  /** WebVTT cue text: line breaks, voices and word times kept. What SRT wrote is carried over. */
  readonly markup: string;
  /** The words alone, line by line. */
  readonly text: string;
  /** WebVTT cue settings as written; empty when there are none. */
  readonly settings: string;
  /** Of the whole caption, from its id or time line to its last word. */
  readonly place: Place;
}

/** Words that a recording says or shows: a caption, or what was written down of the picture. */
export interface Utterance {
  /** Empty where it is known only when it begins. */
  readonly at: Range<'recording'>;
  readonly text: string;
  readonly place: Place;
}

/** The captions of a recording, in recording time; none where the file could not be read. */
export interface CaptionFile {
  /** Path relative to the content folder. */
  readonly file: string;
  readonly facts: FileFacts;
  /** In the order of the file. */
  readonly cues: readonly Caption[];
  /** Style and region blocks of a WebVTT file, as written. */
  readonly blocks: readonly string[];
}

/** A file of a further camera or sound recorder that ran at the same time. */
export interface Angle {
  /** Files of one camera share their id. */
  readonly id: string;
  /** Path relative to the content folder. */
  readonly file: string;
  readonly facts: FileFacts;
  /** Where its first frame lies in recording time, ticks; negative when it began earlier; absent when not aligned. */
  readonly offset?: number;
  /** How much its clock runs fast against the recording's, parts per million. */
  readonly drift: number;
  /** What of the recording it covers; absent when not aligned or not measured, empty when it lies outside. */
  readonly span?: Range<'recording'>;
}

/** An entry of the edit list, and which one it is of those written. */
export interface WrittenEntry extends EditEntry {
  readonly index: number;
}

/** An entry that shows a further camera instead of the recording's own. */
export interface Shot extends WrittenEntry {
  readonly angle: string;
}

export interface Recording extends Read {
  readonly id: string;
  readonly title: string;
  readonly files: readonly CameraFile[];
  /** Absent when neither written nor measured. */
  readonly rate?: FrameRate;
  /** Frame number of the first frame's label; 0 when no start timecode is known. */
  readonly startFrame: number;
  /** Where its pictures begin; only where a camera file's do not follow each other evenly, as phones write them. */
  readonly grid?: FrameGrid<'recording'>;
  /** Ticks; absent when a file could not be measured. */
  readonly length?: Ticks<'recording'>;
  /** What stays; the whole recording when nothing was cut. */
  readonly edit: EditList;
  /** True when the file holds an edit list that could be read. */
  readonly edited: boolean;
  readonly angles: readonly Angle[];
  /** The edit list entry by entry as written, those that can be read, in order. */
  readonly entries: readonly WrittenEntry[];
  /** The entries that name an angle; none while one entry cannot be read. */
  readonly shots: readonly Shot[];
  readonly captions?: CaptionFile;
  /** Its translations, by language. */
  readonly captionsIn?: ReadonlyMap<string, CaptionFile>;
  /** Values that the picture shows, as somebody has written them down. */
  readonly shows: readonly Utterance[];
  readonly written: z.infer<typeof recordingSchema>;
}

/** A point or range of recording time; `until` is the first moment that no longer belongs. */
export interface Cue {
  readonly at: Ticks<'recording'>;
  readonly until?: Ticks<'recording'>;
  readonly place: Place;
  /** Of its attribute `at`. */
  readonly atPlace?: Place;
}

export const SIGNAL_WORDS = ['danger', 'warning', 'caution', 'notice'] as const;
/** ANSI Z535.6 / ISO 3864-2, worst first. */
export type SignalWord = (typeof SIGNAL_WORDS)[number];

export interface SignalBox {
  readonly word: SignalWord;
  readonly text: string;
  readonly place: Place;
}

export type KitGroup = 'tool' | 'part' | 'supply' | 'protective';

/** `<Uses tool="breaker-bar" />` and its like. */
export interface Use {
  readonly group: KitGroup;
  readonly id: string;
  readonly count: number;
  readonly place: Place;
}

/** `<Spec of="rear-axle-nut" />`: a lesson's use of a row. */
export interface Cite {
  readonly spec: string;
  /** The quantity is what the step measures, not what it sets. */
  readonly measured: boolean;
  readonly place: Place;
}

export interface KeyPoint {
  readonly text: string;
  readonly why?: string;
  readonly place: Place;
}

/** Where a class stops the programme to talk. */
export interface Discussion {
  readonly minutes: number;
  readonly text: string;
  readonly place: Place;
}

/** A run of plain prose, for rules that read it. */
export interface Prose {
  readonly text: string;
  readonly place: Place;
}

/** A picture that a lesson shows. */
export interface Picture {
  /** Path relative to the content folder. */
  readonly file: string;
  readonly facts: FileFacts;
  readonly place: Place;
}

/** What chapters and steps have in common. */
export interface Passage {
  readonly id: string;
  readonly title: string;
  /** Of the heading. */
  readonly place: Place;
  readonly cue?: Cue;
  /** A cue is written, but its times cannot be read; a diagnostic has said why. */
  readonly cueUnread?: true;
  readonly uses: readonly Use[];
  readonly cites: readonly Cite[];
  readonly keyPoints: readonly KeyPoint[];
  readonly signals: readonly SignalBox[];
  readonly discussions: readonly Discussion[];
  readonly prose: readonly Prose[];
  /** Words that stand on no line of their own: what pictures show, what links say when they are pointed at. */
  readonly labels: readonly Prose[];
  /** All that stands below the heading, up to the next chapter or step. */
  readonly body: Body;
}

export interface Step extends Passage {}

/** Its own passage is what stands between `##` and the first `###`. */
export interface Chapter extends Passage {
  readonly steps: readonly Step[];
}

export interface Lesson extends Read, z.infer<typeof lessonSchema> {
  readonly id: string;
  readonly chapters: readonly Chapter[];
  /** Before the first chapter. */
  readonly intro: readonly Prose[];
  /** The same, as the page shows it. */
  readonly opening: Body;
  /** Footnotes of the whole lesson. */
  readonly notes: Body;
  readonly pictures: readonly Picture[];
}

/** A lesson once more in another language: `chain.es.mdx` beside `chain.mdx`. */
export interface Translation {
  /** BCP 47 */
  readonly language: string;
  /** As read; it has the id of the lesson it translates. */
  readonly lesson: Lesson;
}

/** A span of model years, both included. */
export interface YearSpan {
  readonly from: number;
  readonly to: number;
}

/** A value that a row had before. */
export interface FormerValue {
  /** Last day it was the right one, YYYY-MM-DD. */
  readonly until: string;
  /** What changed it. */
  readonly bulletin?: string;
  /** Absent when its numbers make no sense; a diagnostic has said so. */
  readonly quantity?: Quantity;
}

/** A row of a spec table. */
export interface Spec extends Read {
  readonly id: string;
  readonly title: string;
  /** Absent when the row's numbers make no sense; a diagnostic has said so. */
  readonly quantity?: Quantity;
  /** Superseded values, the latest first. */
  readonly former: readonly FormerValue[];
  /** What is wrong with its numbers and units, and with those of its former values. */
  readonly problems: readonly QuantityProblem[];
  readonly years: YearSpan;
  readonly written: z.infer<typeof specRow>;
}

export interface Machine extends Read {
  readonly id: string;
  readonly title: string;
  readonly years: YearSpan;
  readonly specs: readonly Spec[];
  readonly written: z.infer<typeof specsSchema>;
}

export interface Kit extends Read, z.infer<typeof kitSchema> {}

/** What people call things. */
export interface Words extends Read, z.infer<typeof wordsSchema> {}

export interface ShopClass extends Read, z.infer<typeof classSchema> {
  readonly id: string;
}

/** How long the blocks of a class really took. */
export interface Actual extends Read, z.infer<typeof actualSchema> {
  /** Id of the class. */
  readonly id: string;
}

/** Questions that were set aside in a class. */
export interface ClassQuestions extends Read, z.infer<typeof questionsSchema> {
  /** Id of the class. */
  readonly id: string;
}

/** What has to be said where a recording says or shows what the spec table no longer agrees with. */
export interface Correction extends Read, Readonly<z.infer<typeof correctionsSchema>['corrections'][number]> {
  /** Id of the lesson. */
  readonly lesson: string;
  /** `at`, read. */
  readonly moment: Ticks<'recording'>;
}

/** A collection of another shop that is in use, as its publisher has signed it. */
export interface SharedCollection extends Read {
  readonly name: string;
  /** SemVer. */
  readonly version: string;
  readonly title: string;
  /** The shop it comes from. */
  readonly publisher: string;
  readonly licence: string;
  /** Known where somebody has compared the key of its signer. */
  readonly signer: 'known' | 'unknown';
  /** Its spec tables, as published. */
  readonly machines: readonly Machine[];
  /** Its texts by path in the content folder, and whether this shop has changed them. */
  readonly texts: ReadonlyMap<string, 'as published' | 'changed'>;
}

/** A version that was fetched, and is not in use: somebody has something to choose. */
export interface WaitingCollection {
  readonly name: string;
  readonly version: string;
  /** Which entry of `uses` it is. */
  readonly at: number;
}

/** What a shop takes from others and gives; `uses` and `publishes` as written. */
export interface Collections extends Read, z.infer<typeof collectionsSchema> {
  /** Those that are in use and lie in the content folder, in the order of `uses`. */
  readonly kept: readonly SharedCollection[];
  readonly waiting: readonly WaitingCollection[];
}

/** All that a content folder says. */
export interface Shop {
  readonly info: ShopInfo;
  /** The language that pages and papers are made in. */
  readonly locale: Locale;
  readonly recordings: readonly Recording[];
  readonly lessons: readonly Lesson[];
  /** In the order of their files. */
  readonly translations: readonly Translation[];
  readonly machines: readonly Machine[];
  readonly kit: Kit;
  readonly words: Words;
  /** What people call things in the further languages of the site. */
  readonly wordsIn?: ReadonlyMap<string, Words>;
  readonly classes: readonly ShopClass[];
  readonly actuals: readonly Actual[];
  readonly questions: readonly ClassQuestions[];
  readonly corrections: readonly Correction[];
  readonly collections: Collections;
  /** Ids of files and rows that stand in the content but could not be read; a diagnostic has said why. */
  readonly broken: ReadonlySet<string>;
}

/** A lesson with all that it is made from; a translation alone where the lesson itself cannot be read. */
export type LessonParts = Pick<Shop, 'lessons' | 'translations' | 'recordings' | 'machines' | 'corrections' | 'kit'>;
