import '../cutting-room/policy.ts';
import { t } from '../page/words.ts';
import { type PackedDesk, packedDesk } from './packed-desk.ts';
import { leadByWindow } from './room-channel.ts';
import { showRoom } from './show-room.tsx';

const found = packedDesk<Pick<PackedDesk, 'keep'>>();
if (found) {
  const { place, desk } = found;
  const lead: unknown = window.opener;
  if (window.opener) showRoom(place, leadByWindow(desk.keep, lead as Window));
  else place.textContent = t('This window shows what the one who leads the class shows: open it from there.');
}
