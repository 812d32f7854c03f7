/** @jsxImportSource preact */
import { useEffect, useRef } from 'preact/hooks';
import type { DaySheet } from '../../core/day/index.ts';
import { planFromJson } from '../../core/programme/index.ts';
import { ProgrammeMedia } from '../player/programme-media.ts';
import { PointLayer } from './PointLayer.tsx';
import type { RoomView } from './room-channel.ts';

/** So near to the beginning of the next clip the film simply runs on, s. */
const SEAMLESS = 0.4;
const LOOK_MS = 100;

export interface ClipFilmProps {
  readonly films: DaySheet['films'];
  readonly view: RoomView;
  readonly muted: boolean;
  readonly onOver: (start: number) => void;
  readonly onSeconds: (seconds: number, refused: boolean) => void;
}

/** The film of a clip: from its beginning to its end, and no further. */
export function ClipFilm({ films, view, muted, onOver, onSeconds }: ClipFilmProps) {
  const holder = useRef<HTMLDivElement>(null);
  const media = useRef<ProgrammeMedia | undefined>(undefined);
  const lesson = useRef('');
  const refused = useRef(false);
  const { clip, start, playing, speed, ran } = view;
  // It may come later than what is to be shown of it.
  const film = clip ? films[clip.lesson] : undefined;

  useEffect(() => {
    const player = new ProgrammeMedia();
    media.current = player;
    holder.current?.append(player.element);
    return () => player.dispose();
  }, []);

  useEffect(() => {
    const player = media.current;
    if (!player || !clip || !film) return;
    const from = Math.min(clip.start + ran, clip.end);
    if (lesson.current !== clip.lesson) {
      lesson.current = clip.lesson;
      player.load(planFromJson(film.plan), from);
    } else if (Math.abs(player.currentTime - from) > SEAMLESS || !playing) player.currentTime = from;
    // A clip that is started anew begins where it is told to, whatever it did before.
  }, [film, clip?.lesson, clip?.id, start]);

  useEffect(() => {
    if (media.current) media.current.muted = muted;
  }, [muted]);

  useEffect(() => {
    if (media.current) media.current.playbackRate = speed;
  }, [speed, clip?.lesson]);

  useEffect(() => {
    const player = media.current;
    if (!player || !clip) return player?.pause();
    if (!playing) return player.pause();
    refused.current = false;
    player.play().catch(() => {
      refused.current = true;
      onSeconds(player.currentTime, true);
    });
    let said = false;
    const timer = setInterval(() => {
      const { currentTime } = player;
      onSeconds(currentTime, refused.current);
      const over = (!player.seeking && currentTime >= clip.end - 0.05 && currentTime < clip.end + 5) || player.ended;
      if (!over || said) return;
      said = true;
      onOver(start);
    }, LOOK_MS);
    return () => clearInterval(timer);
  }, [film, playing, clip?.lesson, clip?.id, start]);

  return (
    <div class="film">
      <div ref={holder} />
      {view.pointing && <PointLayer pointing={view.pointing} />}
    </div>
  );
}
