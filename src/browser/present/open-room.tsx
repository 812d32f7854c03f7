import '../cutting-room/policy.ts';
import type { DayDeskData } from './day-server.ts';
import { leadByChannel } from './room-channel.ts';
import { showRoom } from './show-room.tsx';

const place = document.querySelector('#day');
const data = JSON.parse(document.querySelector('#desk')?.textContent ?? 'null') as DayDeskData | null;
if (place && data) showRoom(place, leadByChannel(data.class));
