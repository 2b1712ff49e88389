import { useEffect, useEffectEvent, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { Choices } from '../../kit/Choices.tsx';
import { Tick } from '../../kit/Tick.tsx';
import { Drawing } from './Drawing.tsx';
import { Key } from './Key.tsx';
import { fitting, layOut } from './lay-out.ts';
import type { WayModel } from './model.ts';
import { sortOf } from './strips.ts';
import './way-drawing.css';
import './way-stations.css';
import { Names } from './Names.tsx';
import { Stations } from './Stations.tsx';
import { dayWidth, isZoom, stepped, type Zoom, zooms } from './zoom.ts';

/** Room for the sheet, in sixteenths of the root letter size; follows the window. */
function useRoom(box: React.RefObject<HTMLDivElement | null>): number {
  const [room, setRoom] = useState(960);
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return;
    const measure = (): void => {
      const root = Number.parseFloat(window.getComputedStyle(document.documentElement).fontSize);
      setRoom((element.clientWidth / root) * 16);
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, [box]);
  return room;
}

/** The drawn way: plan above, profile below, scrolled sideways; + and - zoom, arrows walk the stations. */
export function Sheet({ model }: { readonly model: WayModel }) {
  const box = useRef<HTMLDivElement>(null);
  const room = useRoom(box);
  const [zoom, setZoom] = useState<Zoom>('months');
  const [endless, showEndless] = useState(false);
  const [expected, showExpected] = useState(false);
  const [focused, focus] = useState<string>();
  const plan = useMemo(
    () => layOut(model, { day: dayWidth(zoom, fitting(model, room)), endless, expected }),
    [model, zoom, room, endless, expected],
  );
  // A third of the sheet shows what was, two thirds what comes.
  // Only a new zoom moves the sheet; a changed lot does not.
  const comeTo = useEffectEvent((size: Zoom) => {
    const element = box.current;
    if (element === null) return;
    const today = (plan.today / plan.width) * element.scrollWidth;
    element.scrollLeft = size === 'whole way' ? 0 : today - element.clientWidth / 3;
  });
  useEffect(() => comeTo(zoom), [zoom]);
  const sheet = useRef<HTMLDivElement>(null);
  const keys = useEffectEvent((event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === '+' || event.key === '=') setZoom(stepped(zoom, 1));
    else if (event.key === '-') setZoom(stepped(zoom, -1));
  });
  // A short cut for the buttons above the sheet, heard wherever the focus stands in it.
  useEffect(() => {
    const element = sheet.current;
    const hear = (event: KeyboardEvent): void => keys(event);
    element?.addEventListener('keydown', hear);
    return () => element?.removeEventListener('keydown', hear);
  }, []);
  const count = (sort: string): number => model.lives.filter((life) => sortOf(life) === sort).length;
  return (
    <div className="way-sheet" ref={sheet}>
      <div className="way-tools">
        <Choices
          label="Zoom"
          labelUnseen
          options={zooms.map((id) => ({ id, title: id }))}
          value={zoom}
          onChange={(id) => isZoom(id) && setZoom(id)}
        />
        <span className="way-label">Papers too</span>
        <Tick checked={endless} onChange={showEndless}>
          with no end ({count('endless')})
        </Tick>
        <Tick checked={expected} onChange={showExpected}>
          still to come ({count('expected')})
        </Tick>
      </div>
      <div className="way-scroll" ref={box}>
        <div className="way-paper" style={{ width: `${plan.width / 16}rem`, height: `${plan.height / 16}rem` }}>
          <Drawing plan={plan} focused={focused} />
          <Stations plan={plan} focused={focused} onFocus={focus} />
          <Names plan={plan} focused={focused} />
        </div>
      </div>
      <Key earlier={plan.earlier} />
    </div>
  );
}
