/** Icons of the ways to reach a person, drawn on a square of 20; always beside a word, so hidden from readers. */
const paths = {
  sound: "M3 8v4h3l4 3.500v-11L6 8zM13 7.500a4 4 0 0 1 0 5M15 5.500a7 7 0 0 1 0 9",
  buzz: "M7 3.500h6v13H7zM3.500 7v6M16.500 7v6M9 14h2",
  push: "M3 4.500h14v9H9l-3.500 3v-3H3zM6.500 8h7M6.500 10.500h4",
  home: "M5.500 2.500h9v15h-9zM10 6v6M7.500 9.500 10 12l2.500-2.500",
  secure: "M5 9h10v8H5zM7 9V6.500a3 3 0 0 1 6 0V9",
  outside:
    "M2.500 10a7.500 7.500 0 1 0 15 0 7.500 7.500 0 1 0-15 0zM2.500 10h15M10 2.500c-4.500 4.500-4.500 10.500 0 15M10 2.500c4.500 4.500 4.500 10.500 0 15",
} as const;

export type ReachIconName = keyof typeof paths;

export function ReachIcon({ name }: { name: ReachIconName }) {
  return (
    <svg class="i" viewBox="0 0 20 20" width={22} height={22} aria-hidden="true">
      <path d={paths[name]} />
    </svg>
  );
}
