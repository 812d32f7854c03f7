/** @jsxImportSource preact */
import { signal } from '@preact/signals';
import { render } from 'preact';
import type { DaySheet, RoomWord } from '../../core/day/index.ts';
import { t } from '../page/words.ts';
import { RoomScreen } from './RoomScreen.tsx';
import type { LeadLink, RoomView } from './room-channel.ts';

const WAITING: RoomView = {
  ...{ clip: null, talk: null, playing: false, speed: 1, dark: false, start: 0, ran: 0, pointing: null, year: null },
  ...{ title: t('Welcome'), line: '', left: null },
};

/** The window that the room sees: it shows what it is told, and says what became of it. */
export function showRoom(place: Element, lead: LeadLink): void {
  const view = signal<RoomView>(WAITING);
  const films = signal<DaySheet['films']>({});
  let said: RoomWord = { kind: 'here', start: 0, seconds: 0, refused: false };
  lead.listen((word) => {
    if (word.kind === 'view') view.value = word.view;
    if (word.kind === 'films') films.value = word.films;
  });
  lead.say({ kind: 'hello' });
  setInterval(() => lead.say(said), 1000);
  document.addEventListener('click', () => void document.documentElement.requestFullscreen?.().catch(() => undefined));
  place.replaceChildren();
  render(
    <Screen
      view={view}
      films={films}
      onOver={(of) => lead.say({ kind: 'clip-over', start: of })}
      onSeconds={(seconds, refused) => {
        said = { kind: 'here', start: view.value.start, seconds, refused };
      }}
    />,
    place,
  );
}

function Screen(props: {
  view: { value: RoomView };
  films: { value: DaySheet['films'] };
  onOver: (start: number) => void;
  onSeconds: (seconds: number, refused: boolean) => void;
}) {
  const { view, films, onOver, onSeconds } = props;
  return (
    <main class="whole">
      <RoomScreen films={films.value} view={view.value} muted={false} onOver={onOver} onSeconds={onSeconds} />
    </main>
  );
}
