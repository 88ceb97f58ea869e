import { resolve } from "node:path";
import { defaultClientConditions, defineConfig } from "vite";

export default defineConfig({
  root: import.meta.dirname,
  resolve: { conditions: ["source", ...defaultClientConditions] },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    outDir: resolve(import.meta.dirname, "../dist/web"),
    emptyOutDir: true,
    target: "es2022",
    // The page's content policy allows files of its own origin only, no data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    manifest: true,
    // Small files that always come together pack better as one.
    rolldownOptions: {
      // Reading a property or a global does nothing by itself here: without this a part of Chart.js that nothing
      // uses stays, 6 kB packed. An effect must therefore use the signals that it reads: a bare read is left out.
      treeshake: { propertyReadSideEffects: false, unknownGlobalSideEffects: false },
      output: {
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [
            {
              name: "frames",
              test: /(shared-types.(view|site|words|advice)\.ts|node_modules.zod)/,
            },
            { name: "bell", test: /web.attend.bell/ },
            {
              name: "strips",
              test: /(dashboard.alerts.(commonWords|reasonWords|telling)|web.(parts.(Age|Chip|AlertSheet|LaterDesk|Roll|Strip|Fitted|nowLabel|placeLabels|rollShape|strip|EveningPicture|tried)|state.heatAheadNow|words.(alertText|boothSentence|boothWords|nextStep|changeStep|en.(today|booth|step))))/,
            },
          ],
        },
      },
    },
  },
});
