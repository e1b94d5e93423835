/** How wide an element is, so that no more is asked for than can be drawn. */
import { useEffect, useState, type RefObject } from 'react';

const STEP_PX = 100;
const UNMEASURED_PX = 1000;

/** The width of an element in px, rounded up to a hundred: a small change of the window asks for nothing new. */
export function useRoundWidth(box: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(UNMEASURED_PX);
  useEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const watch = new ResizeObserver(() => {
      if (element.clientWidth > 0) setWidth(Math.ceil(element.clientWidth / STEP_PX) * STEP_PX);
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, [box]);
  return width;
}
