import type { Ending } from "./trouble.ts";

/** One connection to the dashboard, as much of it as the link needs. */
export type LinkSocket = {
  send(text: string): void;
  /** Ends it with a close code and a reason (RFC 6455 section 7.1.5). */
  close(code: number, reason: string): void;
  /** Ends it without a word. */
  cut(): void;
};

/** What a connection tells: `ended` once and last, also when it never opened. */
export type LinkListener = {
  opened(): void;
  text(text: string): void;
  ended(ending: Ending): void;
};

/** Where the agent signs in, and with what. */
export type SignIn = { readonly dashboard: string; readonly token: string };

/** Begins to connect to a dashboard. */
export type OpenLinkSocket = (signIn: SignIn, listener: LinkListener) => LinkSocket;
