/** Our icons, drawn on a square of 20. Always beside a word, so hidden from readers. */
const paths = {
  fine: "M3 8h14M5.5 8v8.5h9V8M7.6 11.6l1.9 1.9 3.2-3.6M5 5h10",
  watch:
    "M2.5 10.5c2-3.4 4.5-5 7.5-5s5.5 1.6 7.5 5c-2 3-4.5 4.5-7.5 4.5s-5.5-1.5-7.5-4.5zM12 10.3a2 2 0 1 1-4 0 2 2 0 1 1 4 0",
  plan: "M5.5 3h9M5.5 17h9M6.5 3c0 4 3.5 4.5 3.5 7s-3.5 3-3.5 7M13.5 3c0 4-3.5 4.5-3.5 7s3.5 3 3.5 7",
  act: "M6.5 10V5.2a1.15 1.15 0 0 1 2.3 0V9M8.8 9V3.7a1.15 1.15 0 0 1 2.3 0V9M11.1 9V4.7a1.15 1.15 0 0 1 2.3 0v7.1c0 3.2-1.6 5.2-4.2 5.2-2.1 0-3.2-1-4.3-3.1L3.6 11.3c-.5-1.2 1-2 1.8-1L6.5 12",
  silent: "M3 10h2M8 10h1M12 10h1M16 10h1M4 4l12 12",
  unknown:
    "M5.5 3.5h3M11.5 3.5h3v3M14.5 10v3M14.5 16.5h-3M8.5 16.500h-3v-3M5.5 10V7M8.5 8.3c0-2.3 3-2.2 3-.3 0 1.3-1.5 1.3-1.5 2.7M10 13.200v.1",
  note: "M5 16l1-3.500L13.5 5 16 7.5 8.5 15z",
  heat: "M8.2 11.700V4.800a1.8 1.8 0 0 1 3.6 0v6.900a3.3 3.3 0 1 1-3.6 0M10 8v6",
  back: "M12 4l-6 6 6 6",
  today: "M3 12h14M3 12V7h9.500v5M14 5v12",
  alerts: "M4 14h12l-1.500-2V9a4.500 4.500 0 0 0-9 0v3zM8.500 16.500h3M10 3v1.500",
  runSheet: "M5 3h7l3 3v11H5zM7.5 9h5M7.5 12h5",
  stock:
    "M6.500 10a3.500 6.500 0 1 0 7 0a3.500 6.500 0 1 0-7 0M9 10h2M10 3.500h4c2 0 3.500 3 3.500 6.500s-1.500 6.500-3.500 6.500h-4",
  reports: "M4 16h12M6 16v-4M10 16V6M14 16V9",
  more: "M5 10a1 1 0 1 1-2 0 1 1 0 1 1 2 0M11 10a1 1 0 1 1-2 0 1 1 0 1 1 2 0M17 10a1 1 0 1 1-2 0 1 1 0 1 1 2 0",
  setUp: "M4 6h12M4 10h12M4 14h8",
} as const;

export type IconName = keyof typeof paths;

export function Icon({ name, size = 18 }: { name: IconName; size?: number }) {
  return (
    <svg class="i" viewBox="0 0 20 20" width={size} height={size} aria-hidden="true">
      <path d={paths[name]} />
    </svg>
  );
}
