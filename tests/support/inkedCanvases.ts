import type { Page } from "playwright-core";

/** Of each canvas on a page, whether anything is drawn on it. */
export async function inkedCanvases(page: Page): Promise<boolean[]> {
  return await page.locator("canvas").evaluateAll((all) =>
    all.map((each) => {
      const canvas = each as HTMLCanvasElement;
      const data = canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data;
      return data?.some((part, i) => i % 4 === 3 && part > 0) ?? false;
    }),
  );
}
