/** @jsxImportSource preact */
import { useEffect, useRef } from 'preact/hooks';
import { pointingKey, pointTo, ringHere } from './pointing.ts';
import type { Pointing } from './room-channel.ts';

export interface PointPadProps {
  readonly pointing: Pointing;
  readonly set: (pointing: Pointing) => void;
  readonly end: () => void;
}

/** Lies over the small picture while something is pointed at: the mouse or the arrow keys move, a press draws a ring. */
export function PointPad({ pointing, set, end }: PointPadProps) {
  const pad = useRef<HTMLButtonElement>(null);
  useEffect(() => pad.current?.focus(), []);
  const placeOf = (event: PointerEvent | MouseEvent) => {
    const layer = pad.current?.parentElement?.querySelector<SVGSVGElement>('.point-layer');
    const matrix = layer?.getScreenCTM();
    if (!layer || !matrix) return undefined;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    const { width, height } = layer.viewBox.baseVal;
    return { x: x / width, y: y / height };
  };
  return (
    <button
      type="button"
      class="point-pad"
      ref={pad}
      aria-label="Point: arrow keys move, Enter draws a ring or takes it away, Escape ends"
      onPointerMove={(event) => {
        const place = placeOf(event);
        if (place) set(pointTo(pointing, place));
      }}
      onClick={(event) => {
        // A press of Enter comes by its key.
        if (event.detail === 0) return;
        const place = placeOf(event);
        if (place) set(ringHere(pointTo(pointing, place)));
      }}
      onKeyDown={(event) => {
        const next = pointingKey(pointing, event.key);
        if (next === undefined) return;
        event.preventDefault();
        event.stopPropagation();
        if (next === 'end') end();
        else set(next);
      }}
    />
  );
}
