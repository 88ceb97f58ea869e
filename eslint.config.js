import { createTypeScriptImportResolver } from "eslint-import-resolver-typescript";
import importX from "eslint-plugin-import-x";
import tseslint from "typescript-eslint";

/** Which rooms of its own side each room may import; a house test holds the table in DEVELOPERS.md to this one. */
export const dashboardRooms = {
  booth: [],
  forecast: ["booth"],
  alerts: ["booth", "forecast"],
  store: [],
  ingest: ["store"],
  live: [],
  notify: ["alerts", "store"],
  planning: ["booth", "forecast"],
  reports: ["booth"],
  documents: ["planning", "reports"],
  http: ["alerts", "documents", "ingest", "live", "notify", "planning", "reports", "store"],
  replay: ["forecast"],
  web: ["alerts", "booth", "forecast", "planning", "reports"],
};
export const agentRooms = {
  readings: ["outbox"],
  sources: ["readings"],
  outbox: [],
  link: ["outbox"],
  install: [],
};

/** One zone per pair of rooms that may not meet. */
function walls(side, rooms) {
  return Object.entries(rooms).flatMap(([room, allowed]) =>
    Object.keys(rooms)
      .filter((other) => other !== room && !allowed.includes(other))
      .map((other) => ({
        target: `./${side}/${room}`,
        from: `./${side}/${other}`,
        message: `${side}/${room} may import ${allowed.join(", ") || "no other room of its side"} (DEVELOPERS.md)`,
      })),
  );
}

const zones = [
  ...walls("dashboard", dashboardRooms),
  ...walls("agent", agentRooms),
  { target: "./shared-types", from: ["./agent", "./dashboard", "./seeds", "./tests"] },
  { target: "./agent", from: ["./dashboard", "./seeds", "./tests"] },
  { target: "./dashboard", from: ["./agent", "./seeds", "./tests"] },
  { target: "./seeds", from: ["./agent", "./dashboard", "./tests"] },
];

const pureRules = {
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
};

export default tseslint.config(
  { ignores: ["**/dist/**", ".cache/**", "node_modules/**", "shots/**"] },
  ...tseslint.configs.recommendedTypeChecked.map((config) => ({ ...config, files: ["**/*.{ts,tsx}"] })),
  {
    files: ["**/*.{ts,tsx}"],
    plugins: { "import-x": importX },
    languageOptions: {
      parserOptions: {
        projectService: { allowDefaultProject: ["dashboard/web/vite.config.ts"] },
        tsconfigRootDir: import.meta.dirname,
      },
    },
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
      "import-x/no-restricted-paths": ["error", { basePath: import.meta.dirname, zones }],
    },
  },
  {
    files: ["dashboard/{booth,forecast,alerts,planning,reports}/**/*.ts", "seeds/simulate*.ts"],
    rules: pureRules,
  },
  { files: ["**/*.config.ts"], rules: { "import-x/no-default-export": "off" } },
);
