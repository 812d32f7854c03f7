import '../cutting-room/policy.ts';
import { Api } from '../cutting-room/api.ts';
import { DayMemory } from './day-memory.ts';
import { type DayDeskData, DayServer } from './day-server.ts';
import { Devices } from './devices.ts';
import { leadClass } from './lead-class.tsx';
import { roomByChannel } from './room-channel.ts';

async function start(): Promise<void> {
  const place = document.querySelector('#day');
  const data = JSON.parse(document.querySelector('#desk')?.textContent ?? 'null') as DayDeskData | null;
  if (!place || !data) return;
  const { token, base, class: of } = data;
  const api = new Api({ token, base, page: `${base}classes/${of}/present/` });
  const keeper = new DayServer(api, of);
  try {
    await leadClass(place, {
      keeper,
      memory: await DayMemory.open(of),
      room: roomByChannel(of, `${base}classes/${of}/present/room/`),
      adviser: new Worker(new URL('./advice-worker.ts', import.meta.url), { type: 'module' }),
      devices: (store) => new Devices(api, of, store),
      trials: keeper,
    });
  } catch (error) {
    place.textContent = `The class could not be opened: ${error instanceof Error ? error.message : String(error)}`;
  }
}

void start();
