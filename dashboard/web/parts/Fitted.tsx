import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";

/** Room that a picture has: its width and the size of small text, px. */
export type Room = { widthPx: number; textPx: number };

/**
 * A picture drawn to the width it has on this screen. It is measured before anything is painted: a picture
 * drawn to a guess would glide into its place.
 */
export function Fitted({ children }: { children: (room: Room) => ComponentChildren }) {
  const part = useRef<HTMLDivElement>(null);
  const [room, setRoom] = useState<Room | null>(null);
  useLayoutEffect(() => {
    const element = part.current;
    if (element === null) return;
    const measure = () => {
      const textPx = parseFloat(getComputedStyle(document.documentElement).fontSize) * 0.75;
      setRoom({ widthPx: Math.max(120, element.clientWidth), textPx });
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return (
    <div class="stripbox" ref={part}>
      {room !== null && children(room)}
    </div>
  );
}
