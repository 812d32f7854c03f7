/** @jsxImportSource preact */
import { clockOf, courseOf, paperOf } from '../../core/day/index.ts';
import type { DayStore } from './day-store.ts';
import { stretch } from './words.ts';

/** The run sheet as it goes: what was, what is on, when the rest will come. */
export function RunSheetAlive({ store }: { store: DayStore }) {
  const { sheet } = store;
  const state = store.state.value;
  const outlook = store.outlook.value;
  const paper = paperOf(sheet);
  const { plan } = courseOf(sheet, state.attendance);
  return (
    <section class="sheet-alive" aria-labelledby="run-sheet">
      <h2 id="run-sheet">
        Run sheet <span class="quiet">now, on paper</span>
      </h2>
      <ol>
        {state.order.map((id) => {
          const block = plan.blocks.find((each) => each.id === id);
          const time = state.times[id];
          const way = block?.treatments.find((each) => each.id === state.given[id]);
          const planned = paper.starts.get(id)?.planned;
          const starts = time?.start ?? outlook.starts[id];
          const kind = id === state.now ? 'on' : time?.end !== undefined ? 'done' : way ? 'ahead' : 'left-out';
          if (!block || (kind === 'left-out' && block.treatments.length === 0)) return null;
          return (
            <li key={id} class={kind} aria-current={kind === 'on' ? 'step' : undefined}>
              <span class="start">{starts === undefined ? '' : clockOf(sheet, starts)}</span>
              <span class="planned">
                {planned !== undefined &&
                starts !== undefined &&
                Math.abs(starts - planned) >= 60 &&
                kind !== 'left-out'
                  ? clockOf(sheet, planned)
                  : ''}
              </span>
              <span class="what">
                {block.title}
                {way?.title ? <span class="way"> {way.title}</span> : null}
              </span>
              <span class="length">
                {time?.end !== undefined ? stretch(time.end - time.start) : way ? stretch(way.seconds) : 'left out'}
              </span>
              <RowButtons store={store} id={id} kind={kind} />
            </li>
          );
        })}
      </ol>
    </section>
  );
}

function RowButtons({ store, id, kind }: { store: DayStore; id: string; kind: string }) {
  const state = store.state.value;
  const block = store.sheet.shopClass.blocks.find((each) => each.id === id);
  if (state.phase !== 'on' || !block || (kind !== 'ahead' && kind !== 'left-out')) return null;
  const change = (treatment: string | null, text: string) =>
    store.act({ kind: 'change', changes: [{ block: id, treatment }], text });
  const others = block.treatments.filter((way) => way.id !== state.given[id]);
  return (
    <details class="row-more">
      <summary aria-label={`Change ${block.title}`}>…</summary>
      <p class="buttons">
        {kind === 'ahead' && (
          <button type="button" onClick={() => store.act({ kind: 'jump', block: id })}>
            Start now
          </button>
        )}
        {others.map((way) => (
          <button key={way.id} type="button" onClick={() => change(way.id, `${block.title}: ${way.title ?? way.id}`)}>
            {kind === 'left-out' ? 'Bring in' : 'Give'}: {way.title ?? way.id}
          </button>
        ))}
        {kind === 'ahead' && (
          <button type="button" onClick={() => change(null, `leave out ${block.title}`)}>
            Leave out
          </button>
        )}
      </p>
    </details>
  );
}
