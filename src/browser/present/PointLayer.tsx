/** @jsxImportSource preact */
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Pointing } from './room-channel.ts';

/** What a picture without a known size is taken for. */
const USUAL = { width: 1920, height: 1080 };

/** Pointer and rings over the picture: a drawing that keeps the picture's shape and lies on it as the film does. */
export function PointLayer({ pointing }: { pointing: Pointing }) {
  const drawing = useRef<SVGSVGElement>(null);
  const [size, setSize] = useState(USUAL);
  useLayoutEffect(() => {
    const video = drawing.current?.parentElement?.querySelector<HTMLVideoElement>('video[data-on-air]');
    const { videoWidth = 0, videoHeight = 0 } = video ?? {};
    if (videoWidth > 0 && videoHeight > 0 && (videoWidth !== size.width || videoHeight !== size.height))
      setSize({ width: videoWidth, height: videoHeight });
  });
  const { width, height } = size;
  const unit = height / 100;
  return (
    <svg
      class="point-layer"
      ref={drawing}
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio="xMinYMid meet"
      aria-hidden="true"
    >
      {pointing.rings.map(({ x, y }) => (
        <g key={`${x} ${y}`} class="ring">
          <circle class="under" cx={x * width} cy={y * height} r={9 * unit} stroke-width={2.4 * unit} />
          <circle cx={x * width} cy={y * height} r={9 * unit} stroke-width={1.2 * unit} />
        </g>
      ))}
      {pointing.at && (
        <circle
          class="pointer"
          cx={pointing.at.x * width}
          cy={pointing.at.y * height}
          r={2.2 * unit}
          stroke-width={0.8 * unit}
        />
      )}
    </svg>
  );
}
