/** @jsxImportSource preact */
import { clockOf } from '../../core/day/index.ts';
import type { DayStore } from './day-store.ts';
import type { LeadDoes } from './lead-keys.ts';
import { stretch } from './words.ts';

/** What is on: its clock, what it shows, what to say, and what comes next. */
export function NowPanel({ store, does }: { store: DayStore; does: (what: LeadDoes) => void }) {
  const { sheet } = store;
  const { now, screen } = store.state.value;
  const outlook = store.outlook.value;
  const block = sheet.shopClass.blocks.find(({ id }) => id === now);
  const more = sheet.blocks.find(({ id }) => id === now);
  const left = store.left ?? 0;
  const clips = store.clips;
  const { shown } = store;
  return (
    <>
      <section class="now" aria-labelledby="now">
        <h1 id="now">{block?.title}</h1>
        <p class={`left${left < 0 ? ' over' : ''}`}>
          <span class="figure">{stretch(left)}</span> {left < 0 ? 'over its time' : 'left of its time'}
        </p>
        <p class="buttons">
          <button type="button" class="main" onClick={() => does('next')}>
            Next block <kbd>N</kbd>
          </button>
          <button type="button" onClick={() => does('back')}>
            Back <kbd>B</kbd>
          </button>
        </p>
        {[more?.who, more?.bay, more?.note].some(Boolean) && (
          <p class="private">{[more?.who, more?.bay, more?.note].filter(Boolean).join(' · ')}</p>
        )}
      </section>
      {(clips.length > 0 || shown) && (
        <section class="steps" aria-labelledby="steps">
          <h2 id="steps">On screen</h2>
          <p class="buttons">
            <button type="button" class="main" onClick={() => does('toggle')}>
              {screen.talking ? 'Go on' : screen.playing ? 'Pause' : 'Play'} <kbd>Space</kbd>
            </button>
            <button type="button" onClick={() => does('again')}>
              Again <kbd>A</kbd>
            </button>
            <button type="button" onClick={() => does('slower')}>
              Slower <kbd>S</kbd>
            </button>
            <button type="button" onClick={() => does('faster')}>
              Faster <kbd>F</kbd>
            </button>
            <span class="speed">{screen.speed} ×</span>
          </p>
          {screen.talking && shown?.talk && <p class="talk-now">Let them talk: {shown.talk.text}</p>}
          <ol class="clips">
            {clips.map((clip) => (
              <li key={clip.id} aria-current={clip === shown ? 'step' : undefined}>
                <button type="button" onClick={() => store.act({ kind: 'show', lesson: clip.lesson, step: clip.id })}>
                  <span class="balloon">{clip.number}</span> {clip.title}
                  <span class="length">{stretch(clip.end - clip.start)}</span>
                </button>
              </li>
            ))}
          </ol>
          {screen.step && shown && (
            <p>
              Shown besides: <span class="balloon">{shown.number}</span> {shown.title}{' '}
              <button type="button" onClick={() => store.act({ kind: 'show' })}>
                Back to the plan
              </button>
            </p>
          )}
          {shown && shown.keyPoints.length > 0 && (
            <ul class="key-points">
              {shown.keyPoints.map(({ text, why }) => (
                <li key={text}>
                  {text}
                  {why === undefined ? '' : ` (${why})`}
                </li>
              ))}
            </ul>
          )}
        </section>
      )}
      <NextUp store={store} next={outlook.next} />
    </>
  );
}

function NextUp({ store, next }: { store: DayStore; next: string | undefined }) {
  const { sheet } = store;
  const { given } = store.state.value;
  const block = sheet.shopClass.blocks.find(({ id }) => id === next);
  const starts = next === undefined ? undefined : store.outlook.value.starts[next];
  if (!block || next === undefined || starts === undefined)
    return (
      <section class="next-up" aria-labelledby="next-up">
        <h2 id="next-up">Next</h2>
        <p>This is the last block.</p>
      </section>
    );
  const kit = sheet.blocks.find(({ id }) => id === next)?.kit[given[next] ?? ''] ?? [];
  return (
    <section class="next-up" aria-labelledby="next-up">
      <h2 id="next-up">Next, about {clockOf(sheet, starts)}</h2>
      <p class="what">{block.title}</p>
      {kit.length > 0 && (
        <p class="kit-next">
          Lay out: {kit.map(({ title, count }) => (count > 1 ? `${count} × ${title}` : title)).join(', ')}
        </p>
      )}
    </section>
  );
}
