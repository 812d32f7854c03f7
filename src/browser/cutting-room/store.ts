import { batch, computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import {
  addEntry,
  type Bindings,
  begin,
  type CommandRow,
  captionText,
  type Desk,
  type EditCommand,
  type History,
  mergedText,
  mergeTexts,
  openSession,
  printBindings,
  printDecisions,
  readAgain,
  readBindings,
  readDecisions,
  rebase,
  redo,
  replaceNow,
  type Session,
  undo,
  withContent,
  writeText,
} from '../../core/edit/index.ts';
import type { Diagnostic } from '../../core/model/index.ts';
import type { Ticks } from '../../core/time/index.ts';
import type { Api, Change, Job, Opened, OpenToPhones } from './api.ts';
import type { Budget } from './check-worker.ts';
import type { Journal } from './journal.ts';
import { Saver } from './saver.ts';

/** A stretch of a text that somebody is to look at. `n` counts up, so that the same one can be shown again. */
export interface Pointed {
  readonly n: number;
  readonly from: number;
  readonly to: number;
  /** Also to type there; otherwise the keys stay where they are. */
  readonly enter: boolean;
}

const KEYS = 'liftside-cutting-room-keys';
const DECIDED = 'liftside-cutting-room-decided ';

/** Everything the page shows and does, apart from pixels. */
export class Store {
  readonly api: Api;
  readonly desk: Signal<Desk>;
  readonly opened: Opened;
  /** What is known of the files that recordings name. */
  readonly facts: Signal<Opened['facts']>;
  readonly session: Signal<Session>;
  readonly history: Signal<History>;
  /** Apart from the session, because it moves with every frame. */
  readonly playhead: Signal<Ticks<'recording'>>;
  /** Counts up each time the playhead was put somewhere, other than by playing. */
  readonly jumps = signal(0);
  readonly said = signal('');
  readonly bindings: Signal<Bindings>;
  readonly diagnostics = signal<readonly Diagnostic[]>([]);
  /** The texts that the diagnostics are about. */
  checkedTexts: ReadonlyMap<string, string> = new Map();
  readonly checking = signal(false);
  readonly budgets = signal<readonly Budget[]>([]);
  /** The stretch of text that a finding is about: in a chapter or step, or in a file of the desk. */
  readonly pointed = signal<
    (Pointed & ({ passage: string; file?: never } | { file: string; passage?: never })) | undefined
  >(undefined);
  /** Counts up with each piece of news from a phone. */
  readonly logged = signal(0);
  /** Work on this recording that runs, waits or has ended lately. */
  readonly jobs = signal<readonly Job[]>([]);
  /** Where phones can get in; nothing when none can. */
  readonly phones = signal<OpenToPhones | undefined>(undefined);
  /** Counts up when phones were let in or shut out. */
  readonly phonesHeard = signal(0);
  readonly saver: Saver;
  readonly lost = signal(0);
  /** Shows the picture; there once the page is. */
  player: { readonly seeks: readonly number[] } | undefined;
  readonly view: ReadonlySignal<Session['view']>;

  /** @param unsaved what an earlier page kept that never reached the disk */
  constructor(api: Api, opened: Opened, journal: Journal, unsaved: readonly Change[]) {
    this.api = api;
    this.opened = opened;
    this.facts = signal(opened.facts);
    const facts = (file: string) => this.facts.peek()[file] ?? ({ state: 'missing' } as const);
    // A lesson that was only just started may be in the journal alone.
    const started = unsaved.find(({ file }) => file.startsWith('lessons/'))?.file;
    const desk: Desk = { recordingFile: opened.recordingFile, lessonFile: opened.lessonFiles[0] ?? started, facts };
    const disk = new Map(Object.entries(opened.texts));
    const session = openSession(desk, disk, readDecisions(localStorage.getItem(DECIDED + opened.recordingFile)));
    this.desk = signal(desk);
    this.session = signal(session);
    this.history = signal(begin(session.content));
    this.playhead = signal(session.playhead);
    this.view = computed(() => this.session.value.view);
    this.bindings = signal(readBindings(localStorage.getItem(KEYS)));
    const work = { texts: () => this.session.peek().content.texts, takeIn: this.#takeIn.bind(this) };
    this.saver = new Saver(api, work, disk, journal);
    const decided = computed(() => this.session.value.content.decided);
    let kept = session.content.decided;
    effect(() => {
      if (decided.value === kept) return;
      kept = decided.value;
      localStorage.setItem(DECIDED + opened.recordingFile, printDecisions(kept));
    });
    this.#recover(unsaved);
  }

  /** What the page kept that never reached the disk comes back, merged with what is there now. */
  #recover(unsaved: readonly Change[]): void {
    if (unsaved.length === 0) return;
    const session = this.session.peek();
    const texts = new Map(session.content.texts);
    for (const { file, was, text } of unsaved) {
      const now = texts.get(file);
      const merged = now === undefined || was === null ? text : mergedText(mergeTexts(was, text, now));
      // Where both changed the same lines, mine goes on the table over the old base and the saver shows both.
      texts.set(file, merged ?? text);
    }
    this.#commit(withContent(session, { ...session.content, texts }), 'brought back what was not saved');
    this.saver.noteChange();
  }

  now(): Session {
    return { ...this.session.peek(), playhead: this.playhead.peek() };
  }

  /** Runs a command; what it says is told, and whether it did anything is given back. */
  run(command: EditCommand, words?: string, join?: string): boolean {
    const before = this.now();
    const outcome = command(before, words);
    if ('refused' in outcome) {
      this.say(outcome.refused);
      return false;
    }
    const { session, label, says } = outcome;
    if (label) this.#commit(session, label, join);
    else
      batch(() => {
        this.history.value = replaceNow(this.history.peek(), session.content);
        this.session.value = session;
      });
    if (session.playhead !== before.playhead) this.seek(session.playhead);
    // Who chose another step wants to see its text, not the line of an earlier finding.
    if (session.content.chosen !== before.content.chosen) this.pointed.value = undefined;
    if (says) this.say(says);
    if (session.content.texts !== before.content.texts) this.saver.noteChange();
    return true;
  }

  perform(row: CommandRow, words?: string): boolean {
    return row.run ? this.run(row.run, words) : false;
  }

  /** Text typed below a heading; what is typed in a row is undone at once. */
  write(words: string): boolean {
    const { chosen } = this.session.peek().content;
    return this.run(writeText, words, `text ${chosen}`);
  }

  #commit(session: Session, label: string, join?: string): void {
    batch(() => {
      this.history.value = addEntry(this.history.peek(), session.content, label, join);
      this.session.value = session;
    });
  }

  undo(): void {
    this.#step(undo(this.history.peek()), 'undone', 'there is nothing to undo');
  }

  redo(): void {
    this.#step(redo(this.history.peek()), 'redone', 'there is nothing to redo');
  }

  #step(step: ReturnType<typeof undo>, verb: string, none: string): void {
    if (!step) {
      this.say(none);
      return;
    }
    const session = this.session.peek();
    const changed = step.history.now.texts !== session.content.texts;
    batch(() => {
      this.history.value = step.history;
      this.session.value = withContent(session, step.history.now);
    });
    this.say(`${verb}: ${step.label}`);
    if (changed) this.saver.noteChange();
  }

  seek(to: Ticks<'recording'>): void {
    batch(() => {
      this.playhead.value = to;
      this.jumps.value++;
    });
  }

  say(text: string): void {
    this.said.value = text;
  }

  /** Changes what is no content: speed, marks, what was found in the footage. */
  patch(change: Partial<Omit<Session, 'content' | 'view' | 'desk'>>): void {
    this.session.value = { ...this.session.peek(), ...change };
  }

  setBindings(bindings: Bindings): void {
    this.bindings.value = bindings;
    localStorage.setItem(KEYS, printBindings(bindings));
  }

  /**
   * A camera file, a recorder's sound or a caption file appeared, changed or went.
   *
   * @returns whether that is news
   */
  takeInFacts(facts: Opened['facts']): boolean {
    const known = this.facts.peek();
    const { texts } = this.session.peek().content;
    // What captions on the table say is known from their own news; here it may be older than what is typed meanwhile.
    const same = Object.keys({ ...facts, ...known }).every(
      (file) => texts.has(file) || JSON.stringify(facts[file]) === JSON.stringify(known[file]),
    );
    if (same) return false;
    batch(() => {
      this.facts.value = facts;
      this.session.value = readAgain(this.session.peek());
    });
    const captions = captionText(this.session.peek());
    if (captions && /\.vtt$/i.test(captions.file) && !texts.has(captions.file))
      this.saver.noteForeignChange(captions.file, captions.text);
    return true;
  }

  /** Puts another lesson of the recording on the table. */
  chooseLesson(file: string): void {
    const desk = { ...this.desk.peek(), lessonFile: file };
    const { texts, decided } = this.session.peek().content;
    const session = openSession(desk, texts, decided);
    // All but the texts and what is chosen in them stays: the recording is the same.
    const next = { ...this.session.peek(), desk, content: session.content, view: session.view };
    batch(() => {
      this.desk.value = desk;
      this.session.value = next;
      this.history.value = replaceNow(this.history.peek(), next.content);
    });
  }

  /** Starts a lesson for a recording that has none. */
  startLesson(id: string, text: string): void {
    const file = `lessons/${id}.mdx`;
    const session = this.session.peek();
    const texts = new Map(session.content.texts).set(file, text);
    const desk = { ...this.desk.peek(), lessonFile: file };
    const next = openSession(desk, texts, session.content.decided);
    const { playhead, found, suggestions } = session;
    batch(() => {
      this.desk.value = desk;
      this.session.value = { ...next, playhead, found, suggestions };
      // A file that was started stays; undoing goes back to its beginning.
      this.history.value = begin(next.content);
    });
    this.saver.noteChange();
  }

  #takeIn(file: string, base: string, theirs: string, merged: string): void {
    const session = this.session.peek();
    const content = { ...session.content, texts: new Map(session.content.texts).set(file, merged) };
    const { history, lost } = rebase(this.history.peek(), content, { file, base, theirs });
    batch(() => {
      this.history.value = history;
      this.session.value = withContent(session, content);
      this.lost.value += lost;
    });
    this.say(
      lost > 0
        ? `${file} was changed by somebody else and taken in; ${lost} earlier steps can no longer be undone`
        : `${file} was changed by somebody else and taken in`,
    );
  }
}
