import { createTypeScriptImportResolver } from "eslint-import-resolver-typescript";
import importX from "eslint-plugin-import-x";
import tseslint from "typescript-eslint";

/** Which room may import which others of its side. What is not named is refused. */
const dashboardRooms = {
  booth: [],
  forecast: ["booth"],
  alerts: ["booth", "forecast"],
  store: ["booth"],
  ingest: ["store"],
  live: [],
  http: ["store", "live", "ingest"],
  web: ["forecast", "booth", "alerts"],
};
const agentRooms = {
  sources: ["readings"],
  readings: [],
  outbox: [],
  link: ["outbox"],
};

function zones(side, rooms, otherSides) {
  const walls = Object.entries(rooms).map(([room, allowed]) => ({
    target: `./${side}/${room}`,
    from: [`./${side}`, ...otherSides.map((other) => `./${other}`)],
    except: undefined,
    allowed: [room, ...allowed],
  }));
  return walls.flatMap(({ target, allowed }) => [
    ...Object.keys(rooms)
      .filter((room) => !allowed.includes(room))
      .map((room) => ({
        target,
        from: `./${side}/${room}`,
        message: `see the table of rooms in DEVELOPERS.md: this room may import ${allowed.slice(1).join(", ") || "no other room"}`,
      })),
  ]);
}

export default tseslint.config(
  { ignores: ["**/dist/**", ".cache/**", "node_modules/**", "shots/**"] },
  ...tseslint.configs.recommendedTypeChecked.map((config) => ({ ...config, files: ["**/*.{ts,tsx}"] })),
  {
    files: ["**/*.{ts,tsx}"],
    plugins: { "import-x": importX },
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    settings: {
      "import-x/resolver-next": [
        createTypeScriptImportResolver({ conditionNames: ["source", "import", "types", "default"] }),
      ],
    },
    rules: {
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/switch-exhaustiveness-check": [
        "error",
        { considerDefaultExhaustiveForUnions: true },
      ],
      "import-x/no-cycle": "error",
      "import-x/no-default-export": "error",
      "import-x/no-restricted-paths": [
        "error",
        {
          basePath: import.meta.dirname,
          zones: [
            ...zones("dashboard", dashboardRooms, ["agent", "seeds"]),
            ...zones("agent", agentRooms, ["seeds"]),
            {
              target: "./agent",
              from: ["./dashboard", "./seeds", "./tests"],
              message: "the agent imports only shared-types and its own rooms",
            },
            {
              target: "./dashboard",
              from: ["./agent", "./seeds", "./tests"],
              message: "the dashboard imports only shared-types and its own rooms",
            },
            {
              target: "./shared-types",
              from: ["./agent", "./dashboard", "./seeds", "./tests"],
              message: "shared-types imports nothing of ours",
            },
            {
              target: "./seeds",
              from: ["./tests"],
              message: "seeds are played by tests, not the other way round",
            },
          ],
        },
      ],
    },
  },
  {
    files: ["dashboard/{booth,forecast,alerts}/**/*.ts"],
    rules: {
      "no-restricted-properties": [
        "error",
        { object: "Date", property: "now", message: "pure rooms are given the time" },
        { object: "Math", property: "random", message: "pure rooms are given their dice" },
      ],
      "no-restricted-syntax": [
        "error",
        {
          selector: "NewExpression[callee.name='Date'][arguments.length=0]",
          message: "pure rooms are given the time",
        },
      ],
    },
  },
  {
    files: ["**/*.config.ts", "dashboard/web/vite.config.ts"],
    rules: { "import-x/no-default-export": "off" },
  },
);
