/** @jsxImportSource preact */
import './policy.ts';
import { render } from 'preact';
import { Api, type DeskData } from './api.ts';
import { TakeInFootage } from './parts/TakeInFootage.tsx';

const place = document.querySelector('#take-in');
const handed = document.querySelector('#desk')?.textContent;
if (place && handed) {
  const data = JSON.parse(handed) as Pick<DeskData, 'base' | 'token'> & { readonly recordings: readonly string[] };
  const room = `${data.base}cutting-room/`;
  render(<TakeInFootage api={new Api({ ...data, page: room })} room={room} recordings={data.recordings} />, place);
}
