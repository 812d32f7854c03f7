import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, expect, test, vi } from 'vitest';
import { Journal } from '../../../src/browser/cutting-room/journal.ts';

const change = (text: string) => ({ file: 'lessons/pads.mdx', was: 'a', text });

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});

test('of what was written the last counts, recording by recording; nothing written is nothing read', async () => {
  const [pads, chain] = [await Journal.open('pads'), await Journal.open('chain')];
  expect(await pads.read()).toEqual([]);
  pads.write([change('b')]);
  pads.write([change('c')]);
  chain.write([change('d')]);
  expect(await pads.read()).toEqual([change('c')]);
  expect(await (await Journal.open('chain')).read()).toEqual([change('d')]);
  pads.write([]);
  expect(await (await Journal.open('pads')).read()).toEqual([]);
  expect(await chain.read()).toEqual([change('d')]);
});

test('emptied twice it is written once; written after that it is there again', async () => {
  const journal = await Journal.open('pads');
  const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction');
  journal.write([change('b')]);
  journal.write([]);
  journal.write([]);
  expect(transaction).toHaveBeenCalledTimes(2);
  journal.write([change('c')]);
  expect(await journal.read()).toEqual([change('c')]);
  transaction.mockRestore();
});

test('it asks for the disk: a browser that is killed takes nothing along', async () => {
  const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction');
  (await Journal.open('pads')).write([change('b')]);
  expect(transaction).toHaveBeenLastCalledWith('unsaved', 'readwrite', { durability: 'strict' });
  transaction.mockRestore();
});

test('a browser that has no room for it says so', async () => {
  vi.spyOn(indexedDB, 'open').mockImplementation(() => {
    const request = { error: new DOMException('no room', 'QuotaExceededError') } as IDBOpenDBRequest;
    queueMicrotask(() => request.onerror?.({} as Event));
    return request;
  });
  await expect(Journal.open('pads')).rejects.toThrow('no room');
});
