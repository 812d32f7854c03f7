/** @jsxImportSource preact */
import { clockOf, yearsKnown } from '../../core/day/index.ts';
import type { DayStore } from './day-store.ts';
import type { LeadDoes } from './lead-keys.ts';
import { endsWords } from './words.ts';

/** Ways out, people, questions and kit. */
export function SidePanel({ store, does }: { store: DayStore; does: (what: LeadDoes) => void }) {
  return (
    <>
      <Ways store={store} does={does} />
      <People store={store} does={does} />
      <Questions store={store} />
      <Kit store={store} />
    </>
  );
}

function Ways({ store, does }: { store: DayStore; does: (what: LeadDoes) => void }) {
  const state = store.state.value;
  const ways = store.ways.value;
  const asked = store.asked.value;
  const last = state.changed.at(-1);
  const { off } = store.outlook.value;
  if (state.phase === 'over') return null;
  const urgent = off === 'late' && ways.length > 0;
  return (
    <section
      class={`ways${urgent ? ' urgent' : ''}`}
      aria-labelledby="ways"
      data-look-ms={Math.round(store.lookMs.value)}
    >
      <h2 id="ways">{off === 'early' ? 'Time in hand' : 'Ways out'}</h2>
      {ways.length === 0 && <p class="quiet">None needed: the plan stands as it is.</p>}
      <ol>
        {ways.map((way, place) => (
          <li key={way.text}>
            <button type="button" onClick={() => does(`way-${place + 1}` as LeadDoes)}>
              <kbd>{place + 1}</kbd>
              <span class="what">{way.text}</span>
              <span class="outcome">
                {endsWords(clockOf(store.sheet, way.end), way.chance)}
                {way.worthLost > 0
                  ? `, loses ${way.worthLost} worth`
                  : way.worthLost < 0
                    ? `, wins ${-way.worthLost} worth`
                    : ''}
              </span>
              {way.asks !== undefined && (
                <span class="asks">
                  {asked === place ? `Press ${place + 1} again: ${way.asks}` : `Asks first: ${way.asks}`}
                </span>
              )}
            </button>
          </li>
        ))}
      </ol>
      {last && (
        <p class="buttons">
          <button type="button" onClick={() => does('undo')}>
            Undo: {last.text} <kbd>U</kbd>
          </button>
        </p>
      )}
    </section>
  );
}

function People({ store, does }: { store: DayStore; does: (what: LeadDoes) => void }) {
  const { attendance } = store.state.value;
  const { attendees, capacity } = store.sheet.shopClass;
  return (
    <section class="people" aria-labelledby="people">
      <h2 id="people">Who came</h2>
      <p class="buttons">
        <button type="button" aria-label="One fewer" onClick={() => does('one-fewer')}>
          −
        </button>
        <output>{attendance ?? 'not counted'}</output>
        <button type="button" aria-label="One more" onClick={() => does('one-more')}>
          +
        </button>
        <span class="quiet">expected {attendees ?? capacity ?? 'nobody in particular'}</span>
      </p>
    </section>
  );
}

function Questions({ store }: { store: DayStore }) {
  const { questions } = store.state.value;
  const ask = (event: Event) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const field = form.elements.namedItem('question') as HTMLInputElement;
    const words = field.value.trim();
    if (words === '') return;
    const { shown } = store;
    store.act({ kind: 'question', words, ...(shown ? { lesson: shown.lesson, step: shown.id } : {}) });
    field.value = '';
    field.blur();
  };
  const go = (event: Event) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const field = form.elements.namedItem('step') as HTMLInputElement;
    const own = store.clips[0]?.lesson ?? store.sheet.steps[0]?.lesson;
    const numbered = store.sheet.steps.filter(({ number }) => number === field.value.trim());
    const found = numbered.find(({ lesson }) => lesson === own) ?? numbered[0];
    field.setCustomValidity(found ? '' : 'No step has this number.');
    if (!found) return void field.reportValidity();
    store.act({ kind: 'show', lesson: found.lesson, step: found.id });
    field.value = '';
    field.blur();
  };
  const years = yearsKnown(store.sheet.steps);
  const { year } = store.state.value.screen;
  const ofYear = (event: Event) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const field = form.elements.namedItem('year') as HTMLInputElement;
    const asked = Number(field.value);
    store.act(field.value === '' ? { kind: 'year' } : { kind: 'year', year: asked });
    field.value = '';
    field.blur();
  };
  return (
    <section class="questions" aria-labelledby="questions">
      <h2 id="questions">Questions set aside</h2>
      <form onSubmit={ask}>
        <label>
          <kbd>Q</kbd> A few words
          <input name="question" maxLength={500} autocomplete="off" />
        </label>
        <button type="submit">Set aside</button>
      </form>
      <ul>
        {questions
          .filter(({ answered }) => !answered)
          .map(({ id, words, step }) => (
            <li key={id}>
              {words}
              {step === undefined ? '' : ` (${store.sheet.steps.find((each) => each.id === step)?.number ?? step})`}{' '}
              <button type="button" onClick={() => store.act({ kind: 'answered', question: id })}>
                Answered
              </button>
            </li>
          ))}
      </ul>
      <form onSubmit={go}>
        <label>
          <kbd>G</kbd> Show step
          <input
            name="step"
            inputMode="decimal"
            placeholder="2.3"
            autocomplete="off"
            onInput={(event) => event.currentTarget.setCustomValidity('')}
          />
        </label>
        <button type="submit">Show</button>
      </form>
      <form onSubmit={ofYear}>
        <label>
          <kbd>Y</kbd> Values for
          <input
            name="year"
            inputMode="numeric"
            pattern="\d{4}"
            placeholder={years ? `${years.from} to ${years.to}` : ''}
            autocomplete="off"
          />
        </label>
        <button type="submit">Show</button>
        {year !== undefined && (
          <button type="button" onClick={() => store.act({ kind: 'year' })}>
            The lesson’s own
          </button>
        )}
      </form>
    </section>
  );
}

function Kit({ store }: { store: DayStore }) {
  const { kit } = store.sheet;
  const counted = store.state.value.kit;
  if (kit.length === 0) return null;
  return (
    <details class="kit">
      <summary>Kit that has come back</summary>
      <ul>
        {kit.map(({ key, title, count }) => {
          const known = counted[key];
          const back = known?.back ?? 0;
          const set = (to: number, who = known?.who) =>
            store.act({ kind: 'kit', key, back: Math.min(count, Math.max(0, to)), ...(who ? { who } : {}) });
          return (
            <li key={key}>
              <button type="button" aria-label={`One fewer ${title}`} onClick={() => set(back - 1)}>
                −
              </button>
              <output>
                {back} of {count}
              </output>
              <button type="button" aria-label={`One more ${title}`} onClick={() => set(back + 1)}>
                +
              </button>
              <span>{title}</span>
              {known && back < count && (
                <label>
                  with
                  <input
                    value={known.who ?? ''}
                    maxLength={100}
                    onChange={(event) => set(back, event.currentTarget.value)}
                  />
                </label>
              )}
            </li>
          );
        })}
      </ul>
    </details>
  );
}
