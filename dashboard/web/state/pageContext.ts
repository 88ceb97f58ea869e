import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { Api } from "./api.ts";

/** What a screen may do in the world; handed down by `startPage`. */
export type Page = {
  /** Calls the HTTP side of the dashboard. */
  call: Api["call"];
  /** Shows another page of the dashboard. */
  go(address: string): void;
  /** The part of the address behind #, once: it is taken out of the address. */
  takeFragment(): string;
  /** Begins to listen to the dashboard, after a sign-in. */
  listen(): void;
  /** A choice of this person on this device. */
  keep(name: "theme" | "units" | "role", choice: string): void;
  /** Forgets what is shown and asks for a sign-in. */
  signedOut(): void;
  origin: string;
};

export const PageContext = createContext<Page | null>(null);

export function usePage(): Page {
  const page = useContext(PageContext);
  if (page === null) throw new Error("usePage outside of PageContext");
  return page;
}
