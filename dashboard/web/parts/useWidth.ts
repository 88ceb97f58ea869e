import { useLayoutEffect, useRef, useState } from "preact/hooks";

/** The width of a part on the screen, px, and the size of its small text, so that pictures are drawn to fit. */
export function useWidth(startPx: number) {
  const part = useRef<HTMLDivElement>(null);
  const [measured, setMeasured] = useState({ widthPx: startPx, textPx: 12 });
  useLayoutEffect(() => {
    const element = part.current;
    if (element === null) return;
    const measure = () => {
      const textPx = parseFloat(getComputedStyle(document.documentElement).fontSize) * 0.75;
      setMeasured({ widthPx: Math.max(120, element.clientWidth), textPx });
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return { part, ...measured };
}
