/** @jsxImportSource preact */
import type { ComponentChild } from 'preact';
import { blocksAhead, clockOf } from '../../core/day/index.ts';
import { DevicesPanel } from './DevicesPanel.tsx';
import type { DayStore } from './day-store.ts';
import type { Devices } from './devices.ts';
import { LEAD_KEYS, type LeadDoes } from './lead-keys.ts';
import { NowPanel } from './NowPanel.tsx';
import { PointPad } from './PointPad.tsx';
import { RoomScreen } from './RoomScreen.tsx';
import { RunSheetAlive } from './RunSheetAlive.tsx';
import { SidePanel } from './SidePanel.tsx';
import { type Trials, TryOut } from './TryOut.tsx';
import { behindWords } from './words.ts';

export interface LeadProps {
  readonly store: DayStore;
  readonly trials: Trials | undefined;
  readonly devices: Devices | undefined;
  /** What stands in the place of the server's files, where there is none. */
  readonly files: ComponentChild;
  /** What the page has to say of its clock. */
  readonly clock: ComponentChild;
  readonly rehearsal: number | undefined;
  readonly does: (what: LeadDoes) => void;
  readonly begin: () => void;
  readonly afresh: () => void;
  readonly openRoom: () => void;
}

/** The window of the one who leads the class. */
export function Lead({ store, trials, devices, files, clock, rehearsal, does, begin, afresh, openRoom }: LeadProps) {
  const { sheet } = store;
  const { phase } = store.state.value;
  return (
    <>
      <Header store={store} rehearsal={rehearsal} clock={clock} />
      <main class="desk">
        <RunSheetAlive store={store} />
        <div class="middle">
          {phase === 'before' && <Before store={store} trials={trials} begin={begin} rehearsal={rehearsal} />}
          {phase === 'on' && <NowPanel store={store} does={does} />}
          {phase === 'over' && <After store={store} afresh={afresh} rehearsal={rehearsal} />}
        </div>
        <div class="side">
          <section class="seen" aria-labelledby="seen">
            <h2 id="seen">What the room sees</h2>
            <Preview store={store} />
            <p class="buttons">
              <button type="button" onClick={() => does('point')} disabled={!store.shown}>
                {store.pointing ? 'Point no more' : 'Freeze and point'} <kbd>P</kbd>
              </button>
            </p>
            <button type="button" onClick={openRoom}>
              {store.roomOpen.value ? 'The room’s window is open' : 'Open the room’s window'}
            </button>
            {devices && <DevicesPanel store={store} devices={devices} />}
            {store.roomRefused.value && <p class="notice">The room’s window may not play yet: click into it once.</p>}
          </section>
          <SidePanel store={store} does={does} />
          {rehearsal === undefined && files}
        </div>
      </main>
      <details class="keys">
        <summary>Keys</summary>
        <ul>
          {LEAD_KEYS.map(({ shown, words }) => (
            <li key={shown}>
              <kbd>{shown}</kbd> {words}
            </li>
          ))}
        </ul>
      </details>
      <p class="fine">
        {sheet.shopClass.title}. The service manual for the exact model and year decides. If you cannot do a step
        safely, do not do it.
      </p>
    </>
  );
}

function Header({ store, rehearsal, clock }: Pick<LeadProps, 'store' | 'rehearsal' | 'clock'>) {
  const { phase, slotSeconds } = store.state.value;
  const at = store.at.value;
  const outlook = store.outlook.value;
  const percent = Math.round(outlook.chance * 100);
  return (
    <header class={`top${outlook.off ? ` ${outlook.off}` : ''}`}>
      <p class="clock">{clockOf(store.sheet, at ?? 0)}</p>
      {phase === 'on' && (
        <>
          <p class="behind" role="status">
            {behindWords(outlook.behind)}
          </p>
          <p class="ends">
            ends about <strong>{clockOf(store.sheet, outlook.end.expected)}</strong>, to end by{' '}
            {clockOf(store.sheet, slotSeconds)}
          </p>
          <p class="chance">
            <strong>{percent} %</strong> in time
          </p>
        </>
      )}
      {phase !== 'on' && <p class="ends">{store.sheet.shopClass.title}</p>}
      {rehearsal !== undefined && (
        <p class="rehearsal">Rehearsal, {rehearsal} times as fast: nothing is written down</p>
      )}
      {clock}
      {store.unsent.value > 0 && (
        <p class="notice" role="status">
          {store.unsent.value} waiting for the disk; kept in this browser
        </p>
      )}
      {store.notices.value.map((notice) => (
        <p class="notice" role="status" key={notice}>
          {notice}
        </p>
      ))}
    </header>
  );
}

function Before({ store, trials, begin, rehearsal }: Pick<LeadProps, 'store' | 'trials' | 'begin' | 'rehearsal'>) {
  const { title, date, starts } = store.sheet.shopClass;
  const [first] = blocksAhead(store.state.value);
  const kit = first === undefined ? [] : (store.sheet.blocks.find(({ id }) => id === first)?.kit ?? {});
  return (
    <section class="now" aria-labelledby="now">
      <h1 id="now">{title}</h1>
      <p>
        {date}, from {starts}. Nothing has begun yet.
      </p>
      {Object.keys(kit).length > 0 && <p>Count who comes with + and −; the plan is reckoned for those who came.</p>}
      <p class="buttons">
        <button type="button" class="main" onClick={begin}>
          Begin the class
        </button>
        {rehearsal === undefined && (
          <a class="button" href="?rehearse=20">
            Rehearse it, 20 times as fast
          </a>
        )}
      </p>
      {rehearsal === undefined && trials && <TryOut store={store} trials={trials} />}
    </section>
  );
}

function After({ store, afresh, rehearsal }: Pick<LeadProps, 'store' | 'afresh' | 'rehearsal'>) {
  const missing = store.sheet.kit.filter(({ key, count }) => (store.state.value.kit[key]?.back ?? count) < count);
  return (
    <section class="now" aria-labelledby="now">
      <h1 id="now">The class is over</h1>
      <p>
        It ended at {clockOf(store.sheet, store.outlook.value.end.expected)}, {behindWords(store.outlook.value.behind)}.
      </p>
      {missing.length > 0 && (
        <>
          <h2>Still missing</h2>
          <ul>
            {missing.map(({ key, title, count }) => {
              const known = store.state.value.kit[key];
              return (
                <li key={key}>
                  {count - (known?.back ?? count)} × {title}
                  {known?.who ? `, with ${known.who}` : ''}
                </li>
              );
            })}
          </ul>
        </>
      )}
      {rehearsal === undefined && (
        <p class="buttons">
          <button type="button" onClick={afresh}>
            Begin anew: lay what was written down aside
          </button>
        </p>
      )}
    </section>
  );
}

/** The room's screen, small: without sound while the room has a window of its own, and then it only looks on. */
function Preview({ store }: { store: DayStore }) {
  const over = (start: number) => {
    if (!store.roomOpen.value && start === store.state.value.screen.start) store.act({ kind: 'clip-over' });
  };
  const { pointing } = store;
  return (
    <div class={`preview${pointing ? ' pointing' : ''}`}>
      <div aria-hidden="true">
        <RoomScreen
          films={store.sheet.films}
          view={store.roomView}
          muted={store.roomOpen.value}
          onOver={over}
          onSeconds={() => undefined}
        />
      </div>
      {pointing && <PointPad pointing={pointing} set={(next) => store.point(next)} end={() => store.freeze()} />}
    </div>
  );
}
