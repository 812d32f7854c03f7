import { type LessonData, partAt } from './lesson-data.ts';

/** What is seen of the programme at a place of the rule: its step, and a small picture. */
export interface SeekPicture {
  readonly title: string;
  /** Address of the picture, and where on it, pixels; all of it when left out. */
  readonly url?: string;
  readonly crop?: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

/** The picture nearest before a moment of the programme: of the sheet where there is one, else that of the step. */
export function seekPictureAt({ steps, chapters, seek }: LessonData, seconds: number): SeekPicture {
  const part = partAt(steps, seconds, 0) ?? partAt(chapters, seconds, 0);
  const title = part?.title ?? '';
  if (!seek) return { title, ...(part?.still ? { url: part.still } : {}) };
  const { url, every, width, height, columns, rows } = seek;
  const place = Math.min(Math.floor(seconds / every), columns * rows - 1);
  const crop = { x: (place % columns) * width, y: Math.floor(place / columns) * height, width, height };
  return { title, url, crop };
}

/** Shows over the rule what is on screen at the place under the pointer. Only to be seen: keys move the film itself. */
export function showSeekPictures(player: Element, data: LessonData): void {
  const holder = player.querySelector('.vjs-progress-holder');
  const mark = holder?.querySelector('.vjs-mouse-display');
  if (!holder || !mark) return;
  const box = document.createElement('div');
  const picture = document.createElement('div');
  const title = document.createElement('span');
  box.className = 'seek-picture';
  picture.className = 'seek-picture-film';
  box.setAttribute('aria-hidden', 'true');
  box.append(picture, title);
  mark.append(box);
  holder.addEventListener('pointermove', (event) => {
    if (!(event instanceof PointerEvent)) return;
    const { left, width } = holder.getBoundingClientRect();
    const along = Math.min(Math.max(0, event.clientX - left), width);
    draw(picture, title, seekPictureAt(data, (along / width) * data.length), data);
    // It stays within the rule at both ends.
    const half = box.offsetWidth / 2;
    const middle = Math.min(Math.max(half, along), Math.max(half, width - half));
    box.style.setProperty('--aside', `${middle - along}px`);
  });
}

function draw(picture: HTMLElement, title: HTMLElement, at: SeekPicture, { seek }: LessonData): void {
  title.textContent = at.title;
  picture.hidden = at.url === undefined;
  if (at.url === undefined) return;
  picture.style.backgroundImage = `url(${JSON.stringify(at.url)})`;
  if (!seek || !at.crop) return;
  const { width, height } = at.crop;
  picture.style.width = `${width}px`;
  picture.style.aspectRatio = `${width} / ${height}`;
  picture.style.backgroundSize = `${seek.columns * width}px ${seek.rows * height}px`;
  picture.style.backgroundPosition = `${-at.crop.x}px ${-at.crop.y}px`;
}
