import videojs from 'video.js/core';
import { english } from '../../core/locale/index.ts';
import sheet from '../../styles/video-player.css?url';
import { loadSheet } from '../page/load-sheet.ts';
import { locale, t } from '../page/words.ts';
import type { LessonData } from './lesson-data.ts';
import type { ProgrammeMedia } from './programme-media.ts';
import { graduate } from './rule.ts';
import { showSeekPictures } from './seek-pictures.ts';
import { SPEEDS } from './speeds.ts';
import { PROGRAMME_TYPE, type ProgrammeOptions, type ProgrammeSource, registerProgramme, TECH_NAME } from './tech.ts';

/** The film's controls as the rest of the page knows them; what they control is told to the film itself. */
export interface Player {
  readonly element: HTMLElement;
  toggleCaptions(): void;
  /** The stage fills the screen, or does no more. */
  fills(full: boolean): void;
  close(): void;
}

/** The part of a video.js text track list that is used; its types leave it out. */
interface TrackList {
  readonly length: number;
  readonly [position: number]: { readonly kind: string; mode: string };
}

type Component = InstanceType<ReturnType<typeof videojs.getComponent>>;
/** What its types leave out of a video.js button. */
type FullButton = Component & { controlText(text: string): void; toggleClass(name: string, on: boolean): void };
type FullButtonClass = new (
  player: ReturnType<typeof videojs>,
  options: { controlText: string; className: string; clickHandler: () => void },
) => FullButton;

/**
 * Puts the player in the place of all that its host holds. The film goes on while that happens, and so does the focus.
 *
 * @param toggleFull what the full-screen button does
 */
export async function openPlayer(
  host: HTMLElement,
  data: LessonData,
  film: ProgrammeMedia,
  toggleFull: () => void,
): Promise<Player> {
  await loadSheet(sheet);
  registerProgramme(videojs);
  const element = document.createElement('video-js');
  element.hidden = true;
  host.append(element);
  const files = data.plan.files.map(({ url }) => url).join(',');
  const source: ProgrammeSource = { src: `programme:${files}`, type: PROGRAMME_TYPE };
  const moves = () => {
    const hadFocus = host.contains(document.activeElement);
    // In this very task, after the film has moved: one that is out of the page at the end of a task stops.
    queueMicrotask(() => {
      element.hidden = false;
      for (const other of [...host.children]) if (other !== vjs.el()) other.remove();
      // The room that was kept for these controls is theirs now.
      host.classList.remove('begun');
      if (hadFocus) vjs.el().querySelector<HTMLElement>('.vjs-play-control')?.focus();
    });
  };
  const programme: ProgrammeOptions = { media: film, moves };
  const vjs = videojs(element, {
    techOrder: [TECH_NAME],
    [TECH_NAME]: programme,
    sources: [source],
    controls: true,
    ...(locale.tag === 'en' ? {} : { language: locale.tag, languages: { [locale.tag]: ownWords() } }),
    preload: 'metadata',
    inactivityTimeout: 0,
    playbackRates: SPEEDS,
    userActions: { hotkeys: false, doubleClick: false },
    bigPlayButton: false,
    controlBar: {
      children: [
        'playToggle',
        'currentTimeDisplay',
        'progressControl',
        'durationDisplay',
        'volumePanel',
        'playbackRateMenuButton',
        'chaptersButton',
        'subsCapsButton',
      ],
      volumePanel: { inline: false },
    },
  });
  vjs.el().setAttribute('aria-label', data.title);
  // Tracks belong to the way of playing, which is there only when the player is ready.
  vjs.ready(() => addTracks(vjs, data));
  const full = addFullButton(vjs, toggleFull);
  graduate(vjs.el(), data);
  showSeekPictures(vjs.el(), data);

  const player: Player = {
    element: vjs.el() as HTMLElement,
    toggleCaptions: () => toggleCaptions(vjs.textTracks() as unknown as TrackList),
    fills: (on) => {
      full.controlText(on ? t('Leave full screen') : t('Full screen'));
      full.toggleClass('leave', on);
    },
    close: () => vjs.dispose(),
  };
  return new Promise((resolve) => {
    // Until its source is taken up, and all that waits for that has run, the player would put off a seek and
    // forget a play.
    vjs.one('loadstart', () => vjs.setTimeout(() => resolve(player), 0));
  });
}

/** The whole stage fills the screen, not the picture alone, so the player's own button is not used. */
function addFullButton(vjs: ReturnType<typeof videojs>, toggle: () => void): FullButton {
  const Button = videojs.getComponent('Button') as unknown as FullButtonClass;
  const button = new Button(vjs, { controlText: t('Full screen'), className: 'full-key', clickHandler: toggle });
  vjs.getChild('controlBar')?.addChild(button);
  return button;
}

/** Chapter titles go in as plain text, not as a file: the menu shows what a cue holds, letter by letter. */
function addTracks(vjs: ReturnType<typeof videojs>, { chapters, captions }: LessonData): void {
  const track = vjs.addTextTrack('chapters', t('Chapters')) as unknown as { mode: string; addCue(cue: VTTCue): void };
  track.mode = 'hidden';
  for (const { title, start, end } of chapters) if (end > start) track.addCue(new VTTCue(start, end, title));
  const bar = vjs.getChild('controlBar') as unknown as { getChild(name: string): { update(): void } | undefined };
  bar.getChild('chaptersButton')?.update();
  if (captions)
    vjs.addRemoteTextTrack(
      { kind: 'captions', src: captions.url, srclang: captions.language, label: t('Captions') },
      true,
    );
}

function toggleCaptions(tracks: TrackList): void {
  for (let i = 0; i < tracks.length; i++) {
    const track = tracks[i];
    if (track && (track.kind === 'captions' || track.kind === 'subtitles'))
      track.mode = track.mode === 'showing' ? 'disabled' : 'showing';
  }
}

/** What the player's own controls say, by the names that the library has for it. */
function ownWords(): Record<string, string> {
  const words = [
    english('Play'),
    english('Pause'),
    english('Mute'),
    english('Unmute'),
    english('Current Time'),
    english('Duration'),
    english('Progress Bar'),
    english('Volume Level'),
    english('Playback Rate'),
    english('Chapters'),
    english('Subtitles'),
    english('captions off'),
    english('captions settings'),
    english('Loaded'),
    english('Progress'),
    english('Video Player'),
    english('{1} of {2}'),
  ];
  return Object.fromEntries(words.map((word) => [word, t(word)]));
}
