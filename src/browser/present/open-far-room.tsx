/** @jsxImportSource preact */
import '../cutting-room/policy.ts';
import { signal } from '@preact/signals';
import { render } from 'preact';
import type { DaySheet } from '../../core/day/index.ts';
import { follow, letIn, say } from '../class-phone/link.ts';
import { t } from '../page/words.ts';
import { RoomScreen } from './RoomScreen.tsx';
import type { RoomView } from './room-channel.ts';

const SAY_MS = 1000;

/** The window that the room sees, on another machine of the shop's network: it shows what it is told over the network. */
async function start(): Promise<void> {
  const place = document.querySelector('#day');
  if (!place) return;
  const problem = await letIn();
  if (problem !== undefined) {
    place.textContent = problem;
    return;
  }
  const view = signal<RoomView | undefined>(undefined);
  const films = signal<DaySheet['films']>({});
  const away = signal(false);
  let said = { kind: 'here', start: 0, seconds: 0, refused: false };
  setInterval(() => void say('/word/', said), SAY_MS);
  document.addEventListener('click', () => void document.documentElement.requestFullscreen?.().catch(() => undefined));
  const Screen = () =>
    view.value === undefined ? (
      <p class="opening">{t('Waiting for the class.')}</p>
    ) : (
      <main class="whole">
        <RoomScreen
          films={films.value}
          view={away.value ? { ...view.value, playing: false } : view.value}
          muted={false}
          onOver={(of) => void say('/word/', { kind: 'clip-over', start: of })}
          onSeconds={(seconds, refused) => {
            said = { kind: 'here', start: view.value?.start ?? 0, seconds, refused };
          }}
        />
      </main>
    );
  place.replaceChildren();
  render(<Screen />, place);
  void follow<{ room: RoomView; films?: DaySheet['films'] }>(
    (shown) => {
      if (shown.films !== undefined) films.value = shown.films;
      view.value = shown.room;
    },
    (there) => {
      away.value = !there;
    },
  );
}

void start();
