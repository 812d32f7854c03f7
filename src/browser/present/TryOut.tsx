/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import type { FitInWords } from '../../core/fit/index.ts';
import type { DayServer } from './day-server.ts';
import type { DayStore } from './day-store.ts';
import { LEFT_OUT, type Trial, trialCommand, trialOf } from './trial.ts';

/** Fits a class with changes that nobody has written, and writes them when they are kept. */
export type Trials = Pick<DayServer, 'tryOut' | 'keepTrial'>;

interface Props {
  readonly store: DayStore;
  readonly trials: Trials;
}

/** What would be if, before the class begins: nothing is written until somebody keeps it. */
export function TryOut({ store, trials }: Props) {
  const { blocks, id, attendees, slot } = store.sheet.shopClass;
  const trial = useSignal<Trial | undefined>(undefined);
  const found = useSignal<FitInWords | undefined>(undefined);
  const problem = useSignal('');
  const attempt = async (work: () => Promise<void>) => {
    problem.value = '';
    try {
      await work();
    } catch (error) {
      found.value = undefined;
      problem.value = error instanceof Error ? error.message : String(error);
    }
  };
  const look = (event: Event) => {
    event.preventDefault();
    const asked = trialOf(new FormData(event.currentTarget as HTMLFormElement));
    trial.value = asked;
    void attempt(async () => {
      found.value = await trials.tryOut(asked);
    });
  };
  const keep = (asked: Trial) =>
    attempt(async () => {
      await trials.keepTrial(asked);
      location.reload();
    });
  return (
    <details class="try-out">
      <summary>What if …</summary>
      <form onSubmit={look}>
        <p class="buttons">
          <label>
            Attendees <input name="attendees" inputMode="numeric" placeholder={attendees ? String(attendees) : ''} />
          </label>
          <label>
            Slot, h:mm <input name="slot" placeholder={slot} />
          </label>
        </p>
        <ul>
          {blocks.map((block) => (
            <li key={block.id}>
              <span class="what">{block.title}</span>
              <select name={`way ${block.id}`} aria-label={`${block.title}: how it is given`}>
                <option value="">as it comes best</option>
                {block.treatments.map((way) => (
                  <option key={way.id} value={way.id}>
                    {way.title ?? way.id}
                  </option>
                ))}
                <option value={LEFT_OUT}>left out</option>
              </select>
              <input name={`at ${block.id}`} placeholder="hh:mm" aria-label={`${block.title}: starts at`} />
            </li>
          ))}
        </ul>
        <button type="submit" class="main">
          Try it
        </button>
      </form>
      <div role="status">
        {problem.value !== '' && <p class="notice">{problem}</p>}
        {found.value && trial.value && <Found found={found.value} />}
      </div>
      {found.value && trial.value && (
        <>
          <p>
            <code>{trialCommand(id, trial.value)}</code>
          </p>
          {found.value.fits && (
            <button type="button" onClick={() => trial.value && void keep(trial.value)}>
              Keep it: write it into the class
            </button>
          )}
        </>
      )}
    </details>
  );
}

function Found({ found }: { found: FitInWords }) {
  const lists = [
    ['These cannot all hold', found.conflict],
    ['Left out', found.left],
    ['Groups and stations', found.turns],
    [found.fits ? 'What would save time' : 'Ways out, best first', found.ways],
  ] as const;
  return (
    <>
      <p>
        <strong>{found.head}</strong>; {found.overrun}
      </p>
      <ol class="tried">
        {found.blocks.map(({ clock, length, title }) => (
          <li key={`${clock} ${title}`}>
            <span class="figures">{clock}</span> {title} <span class="quiet">{length}</span>
          </li>
        ))}
      </ol>
      {lists.map(([title, lines]) =>
        lines.length === 0 ? null : (
          <section key={title} aria-label={title}>
            <h2>{title}</h2>
            <ul>
              {lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </section>
        ),
      )}
    </>
  );
}
