/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { applyFix, type CommandRow, canApply, commandOf, keyName } from '../../core/edit/index.ts';
import { showAngles } from './angle-pictures.ts';
import type { DeskData } from './api.ts';
import { sortFindings } from './findings.ts';
import type { Footage } from './footage.ts';
import { Asking } from './parts/Asking.tsx';
import { BudgetBar } from './parts/BudgetBar.tsx';
import { CaptionLine } from './parts/CaptionLine.tsx';
import { Choices } from './parts/Choices.tsx';
import { Clashes } from './parts/Clashes.tsx';
import { Clocks } from './parts/Clocks.tsx';
import { CommandButton } from './parts/CommandButton.tsx';
import { FilmWork, StartButton } from './parts/FilmWork.tsx';
import { Findings, follow } from './parts/Findings.tsx';
import { Help } from './parts/Help.tsx';
import { NewLesson } from './parts/NewLesson.tsx';
import { OpenToPhones } from './parts/OpenToPhones.tsx';
import { Questions } from './parts/Questions.tsx';
import { SaveWord } from './parts/SaveWord.tsx';
import { ShootLog } from './parts/ShootLog.tsx';
import { Steps } from './parts/Steps.tsx';
import { StepText } from './parts/StepText.tsx';
import { Suggestions } from './parts/Suggestions.tsx';
import { WorkWord } from './parts/WorkWord.tsx';
import { Player } from './player.ts';
import type { Store } from './store.ts';
import { Strip, type StripControl } from './strip/Strip.tsx';

interface Props {
  readonly store: Store;
  readonly footage: Footage;
  readonly data: DeskData;
}

/** Buttons by what they are for. */
const BUTTONS: readonly (readonly [name: string, ids: readonly string[]])[] = [
  ['Play', ['play', 'programme', 'audition']],
  ['Cut', ['in', 'out', 'cut', 'keep']],
  ['Cue', ['cue', 'add-step', 'add-chapter']],
  ['Undo and keys', ['undo', 'redo', 'help']],
];

/** The cutting room's page. */
export function Room({ store, footage, data }: Props) {
  const control = useSignal<StripControl | undefined>(undefined);
  const asking = useSignal<CommandRow | undefined>(undefined);
  const help = useSignal(false);
  const write = useSignal(0);
  const correct = useSignal(0);
  const finding = useRef(-1);
  const wide = useMedia('(min-width: 1500px)');

  const perform = (row: CommandRow) => {
    if (row.asks) asking.value = row;
    else if (row.run) store.perform(row);
    else if (row.screen === 'undo') store.undo();
    else if (row.screen === 'redo') store.redo();
    else if (row.screen === 'help') help.value = true;
    else if (row.screen === 'write') write.value++;
    else if (row.screen === 'correct') correct.value++;
    else if (row.screen === 'zoom-in') control.peek()?.zoom(1.5);
    else if (row.screen === 'zoom-out') control.peek()?.zoom(1 / 1.5);
    else if (row.screen === 'zoom-all') control.peek()?.whole();
    else if (row.screen === 'zoom-chosen') control.peek()?.chosen();
    else if (row.screen === 'next-diagnostic') nextFinding(store, finding);
    else if (row.screen === 'remedy') mendFinding(store, finding.current);
  };
  useKeys(store, perform);

  const { view } = store.session.value;
  const state = store.saver.state.value;
  const lesson = view.lesson;
  return (
    <div class={footage.spoken.value.length > 0 ? 'room spoken' : 'room'}>
      <header>
        <h1>
          {view.recording?.title ?? data.recording} <span class="what">Cutting room</span>
        </h1>
        <LessonChoice store={store} />
        <WorkWord store={store} />
        <SaveWord store={store} />
      </header>
      <OpenToPhones store={store} />
      <main>
        <Strip store={store} footage={footage} control={control} />
        <div class="work">
          <div class="seen">
            <Picture store={store} />
            <CaptionLine store={store} footage={footage} correct={correct} perform={perform} />
            <Clocks store={store} />
            <p class="said" role="status" aria-live="polite">
              {store.said}
            </p>
            <BudgetBar store={store} />
            <section class="buttons" aria-label="Commands">
              {BUTTONS.map(([name, ids]) => (
                <fieldset key={name} aria-label={name}>
                  {ids.map((id) => (
                    <CommandButton key={id} id={id} store={store} perform={perform} />
                  ))}
                </fieldset>
              ))}
            </section>
            <Choices store={store} />
            {asking.value && (
              <Asking
                store={store}
                row={asking.value}
                close={() => {
                  asking.value = undefined;
                  document.querySelector<HTMLElement>('.strip .over')?.focus();
                }}
              />
            )}
            {footage.words.value !== '' && (
              <p class="hint">
                {footage.words}{' '}
                {footage.missing.value && <StartButton store={store} work="analyse" recording={data.recording} />}
              </p>
            )}
            {!lesson && <NewLesson store={store} id={data.recording} />}
            {wide.value && (
              <div class="under">
                <Suggestions store={store} />
                <Findings store={store} />
              </div>
            )}
          </div>
          <div class="lists">
            <StepText store={store} focus={write} />
            {lesson && <Steps store={store} />}
            {lesson && <Questions store={store} />}
            {!wide.value && (
              <>
                <Suggestions store={store} />
                <Findings store={store} />
              </>
            )}
            <FilmWork store={store} footage={footage} recording={data.recording} />
            {lesson && <ShootLog store={store} />}
          </div>
        </div>
      </main>
      {help.value && <Help store={store} close={() => (help.value = false)} />}
      {state.kind === 'clash' && <Clashes key={state.file} store={store} state={state} />}
    </div>
  );
}

function Picture({ store }: { readonly store: Store }) {
  const holder = useRef<HTMLDivElement>(null);
  const files = store.view.value.recording?.files.map(({ file }) => file).join('\n') ?? '';
  useEffect(() => {
    const ended = new AbortController();
    const recording = store.session.peek().view.recording;
    if (holder.current && recording) {
      const player = new Player(store, holder.current, recording.files, ended.signal);
      store.player = player;
      showAngles(store, holder.current, ended.signal);
    }
    return () => ended.abort();
  }, [files]);
  return (
    <div class="picture">
      <div class="screen" ref={holder} />
    </div>
  );
}

function LessonChoice({ store }: { readonly store: Store }) {
  const { lessonFiles } = store.opened;
  if (lessonFiles.length < 2) return <p class="lesson">{store.view.value.lesson?.title ?? 'no lesson yet'}</p>;
  return (
    <label class="lesson">
      Lesson{' '}
      <select value={store.desk.value.lessonFile} onChange={(event) => store.chooseLesson(event.currentTarget.value)}>
        {lessonFiles.map((file) => (
          <option key={file} value={file}>
            {file.replace(/^lessons\/|\.mdx$/g, '')}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Whether the window is as a media query says, now and when it changes. */
function useMedia(query: string) {
  const matches = useSignal(matchMedia(query).matches);
  useEffect(() => {
    const list = matchMedia(query);
    const hear = () => (matches.value = list.matches);
    list.addEventListener('change', hear);
    return () => list.removeEventListener('change', hear);
  }, []);
  return matches;
}

/** Keys act anywhere on the page but in fields; a button keeps space and Enter for itself. */
function useKeys(store: Store, perform: (row: CommandRow) => void): void {
  useEffect(() => {
    const handleKey = (event: KeyboardEvent) => {
      if (event.isComposing || event.defaultPrevented) return;
      const target = event.target instanceof HTMLElement ? event.target : document.body;
      if (target.closest('input, textarea, select, dialog, [contenteditable]')) return;
      const name = keyName(event);
      if (target.closest('button, a, summary') && (name === 'Space' || name === 'Enter')) return;
      const row = commandOf(store.bindings.peek(), name);
      if (!row) return;
      event.preventDefault();
      if (!event.repeat || row.repeats) perform(row);
    };
    document.addEventListener('keydown', handleKey);
    return () => document.removeEventListener('keydown', handleKey);
  }, []);
}

function nextFinding(store: Store, last: { current: number }): void {
  const all = sortFindings(store.diagnostics.peek(), store.session.peek());
  if (all.length === 0)
    store.say(store.checking.peek() ? 'the check has not ended yet' : 'the check found no problems');
  last.current = (last.current + 1) % Math.max(1, all.length);
  const next = all[last.current];
  if (next) follow(store, next, false);
}

/** Does what mends the finding that was gone to last; else the first that can be mended by a key. */
function mendFinding(store: Store, at: number): void {
  const session = store.session.peek();
  const all = sortFindings(store.diagnostics.peek(), session);
  const shown = all[at];
  const first = all.find(({ fix }) => fix && canApply(fix, session));
  const finding = shown?.fix ? shown : at === -1 ? first : undefined;
  if (finding?.fix) store.run(applyFix(finding.fix, store.checkedTexts));
  else store.say(shown ? `by hand: ${shown.help}` : 'the check found nothing that a key can fix');
}
