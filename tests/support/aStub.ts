import type { Page } from "playwright-core";
import { onTestFinished } from "vitest";
import { openStubDashboard, type StubState } from "../shots/stubDashboard.ts";
import { builtPages } from "./aChromiumPage.ts";

/** The built pages on a stub dashboard in this state, closed when the test is over. */
export async function aStub(state: StubState) {
  const stub = await openStubDashboard(builtPages, state);
  onTestFinished(() => stub.close());
  return stub;
}

/** Resolves when the page shows this text. */
export const sees = (page: Page, text: string | RegExp) => page.getByText(text).first().waitFor();
