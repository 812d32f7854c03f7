import {
  bytesOf,
  KEPT_PAGE,
  KEPT_SCRIPT,
  type KeepList,
  type KeptFile,
  partOfFile,
  rangeAsked,
} from '../../core/keep/index.ts';
import { type KeptLesson, KeptStore } from './kept-store.ts';
import type { AskedEvent, WorkerScope } from './worker-scope.ts';

const worker = globalThis as unknown as WorkerScope;

/** A network that takes longer to begin a page is none, where a copy is at hand, ms. */
const NETWORK_MS = 8000;

/** Answers without a network for lessons that somebody keeps; runs beside the pages, in the browser. */
const base = new URL(worker.registration.scope).pathname;
const store = new KeptStore(worker.caches, base, worker.location.origin);

worker.addEventListener('install', () => void worker.skipWaiting());
worker.addEventListener('activate', (event) => event.waitUntil(worker.clients.claim()));
worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== worker.location.origin || !pathname.startsWith(base)) return;
  const path = pathname.slice(base.length);
  // What holds now is asked of the site itself, and so is this script.
  if (path === KEPT_SCRIPT || /^lessons\/[^/]+\/keep\.json$/.test(path) || request.cache === 'no-store') return;
  if (request.mode === 'navigate') event.respondWith(page(event, path));
  else if (event.clientId !== '') event.respondWith(part(event, path));
});

/** A page: from the site, so that what it says is what holds; from a copy where the site cannot be reached. */
async function page({ request, resultingClientId }: AskedEvent, path: string): Promise<Response> {
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(NETWORK_MS) });
    if (answer.status < 500) return answer;
  } catch {
    // The copy answers.
  }
  const copies = await store.lessons();
  const copy = copyWith(copies, path) ?? copyWith(copies, KEPT_PAGE);
  // The first one is still on its way: there is nothing but the network.
  if (!copy) return fetch(request);
  const open = await worker.clients.matchAll({ includeUncontrolled: true });
  await store.forgetClients(new Set(open.map(({ id }) => id)));
  const { list, looked } = copy;
  await store.putClient(resultingClientId, { lesson: list.lesson, edition: list.edition });
  const file = fileOf(list, path) ?? fileOf(list, KEPT_PAGE);
  const bytes = file && (await bytesOfFile(file));
  if (!file || !bytes) return Response.error();
  // The page says itself that it is a copy, and of when.
  const html = new TextDecoder()
    .decode(bytes)
    .replace('<html', `<html data-kept="${list.made}" data-looked="${looked}"`);
  return new Response(html, { headers: { 'content-type': 'text/html; charset=utf-8' } });
}

/** What a page needs: of a page out of a copy from the same copy, never from another; else from the site. */
async function part({ request, clientId }: AskedEvent, path: string): Promise<Response> {
  const client = await store.clientOf(clientId);
  if (!client) return fetch(request);
  const list = (await store.lesson(client.lesson))?.list;
  const file = list && fileOf(list, path);
  if (!list || !file) return fetch(request);
  // The copy was replaced while the page was open: what it plays now belongs to other words.
  if (list.edition !== client.edition) return Response.error();
  return answerBy(file, request.headers.get('range'));
}

function answerBy(file: KeptFile, range: string | null): Response {
  const size = bytesOf(file.pieces);
  const asked = rangeAsked(range, file);
  if (asked === 'beyond') return new Response(null, { status: 416, headers: { 'content-range': `bytes */${size}` } });
  const { first, last } = asked === 'whole' ? { first: 0, last: size - 1 } : asked;
  const parts = partOfFile(file, first, last)[Symbol.iterator]();
  // A long film is read as it is wanted, not into memory.
  const body = new ReadableStream<Uint8Array>({
    async pull(controller) {
      const next = parts.next();
      if (next.done) return controller.close();
      const { piece, from, to } = next.value;
      const bytes = await store.piece(piece);
      if (bytes) controller.enqueue(new Uint8Array(bytes, from, to - from));
      else controller.error(new Error('a piece of the copy is gone'));
    },
  });
  return new Response(body, {
    status: asked === 'whole' ? 200 : 206,
    headers: {
      'content-type': file.type,
      'content-length': String(last - first + 1),
      'accept-ranges': 'bytes',
      ...(asked !== 'whole' && { 'content-range': `bytes ${first}-${last}/${size}` }),
    },
  });
}

async function bytesOfFile({ pieces }: KeptFile): Promise<Uint8Array | undefined> {
  const parts = await Promise.all(pieces.map((piece) => store.piece(piece)));
  const whole = parts.filter((part) => part !== undefined);
  return whole.length === pieces.length ? new Uint8Array(await new Blob(whole).arrayBuffer()) : undefined;
}

type Copy = KeptLesson & { readonly list: KeepList };

function copyWith(copies: readonly KeptLesson[], path: string): Copy | undefined {
  return copies.find((kept): kept is Copy => kept.list !== undefined && fileOf(kept.list, path) !== undefined);
}

function fileOf({ files }: KeepList, path: string): KeptFile | undefined {
  return files.find((file) => file.path === path);
}
