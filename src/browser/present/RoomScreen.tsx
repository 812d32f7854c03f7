/** @jsxImportSource preact */
import { type Clip, valuesInRoom } from '../../core/day/index.ts';
import { signalText } from '../../core/pages/index.ts';
import { t } from '../page/words.ts';
import { ClipFilm, type ClipFilmProps } from './ClipFilm.tsx';
import { minutesLeft } from './words.ts';

/** Most values that stand on the screen at once: more of them would be too small for the last row. */
const MOST_VALUES = 3;

/** What the room sees. */
export function RoomScreen(props: ClipFilmProps) {
  const { view } = props;
  const { clip, dark, talk, title, line, left } = view;
  return (
    <div class={`room-screen${clip ? ' showing' : ''}${dark ? ' dark' : ''}`} aria-hidden={dark}>
      <ClipFilm {...props} />
      {clip && <StepWords clip={clip} year={view.year} />}
      {clip && talk !== null && (
        <div class="talk">
          <p class="talk-head">{t('Let us talk')}</p>
          <p>{talk}</p>
        </div>
      )}
      {!clip && (
        <div class="block-words">
          <h1>{title}</h1>
          {line !== '' && <p>{line}</p>}
        </div>
      )}
      {left !== null && <BlockClock left={left} title={clip ? title : ''} />}
      {dark && <div class="black" />}
    </div>
  );
}

function StepWords({ clip, year }: { clip: Clip; year: number | null }) {
  const [signal] = clip.signals;
  const values = valuesInRoom(clip, year ?? undefined);
  return (
    <>
      <p class="step-title">
        <span class="balloon">{clip.number}</span> {clip.title}
      </p>
      {signal && (
        <p class={`hazard ${signal.word}`}>
          <strong>{signalText(signal.word, t)}</strong> {signal.text}
        </p>
      )}
      {year !== null && clip.values.length > 0 && values.length === 0 && (
        <p class="values">{t('No value for {year}: the service manual decides.', { year })}</p>
      )}
      {values.length > 0 && (
        <dl class="values">
          {year !== null && <div class="of-year">{t('Model year {year}', { year })}</div>}
          {values.slice(0, MOST_VALUES).map(({ title, whose, primary, secondary }) => (
            <div key={`${title} ${whose}`}>
              <dt>{whose === '' ? title : `${title}, ${whose}`}</dt>
              <dd>
                {unbroken(primary)}
                {secondary !== '' && <span class="secondary">{unbroken(secondary)}</span>}
              </dd>
            </div>
          ))}
          {values.length > MOST_VALUES && <p class="more">{t('and more in the handout')}</p>}
        </dl>
      )}
    </>
  );
}

/** A value whose unit stays beside its figure. */
function unbroken(value: string): string {
  return value.replace(/ (?=\S+$)/, '\u00a0');
}

function BlockClock({ left, title }: { left: number; title: string }) {
  const { figure, unit } = minutesLeft(left);
  return (
    <p class={`block-clock${left < 0 ? ' over' : ''}`}>
      {title !== '' && <span class="of">{title}</span>}
      <span class="figure">{figure}</span>
      <span class="unit">{unit}</span>
    </p>
  );
}
