import js from "@eslint/js";
import importX, { createNodeResolver } from "eslint-plugin-import-x";
import tseslint from "typescript-eslint";

/** The floors, from the top down; floors on one line stand side by side and do not import each other. */
const floors = [
  ["cli"],
  ["desk", "register"],
  ["build"],
  ["dossier"],
  ["templates"],
  ["figures"],
  ["comparison"],
  ["keystroke", "latency"],
  ["records"],
  ["statistics"],
  ["metrology"],
];

/** No floor imports a floor above it, nor one beside it. */
const zones = floors.flatMap((level, index) =>
  level.map((floor) => ({
    target: `./src/${floor}`,
    from: [...floors.slice(0, index).flat(), ...level.filter((other) => other !== floor)].map(
      (above) => `./src/${above}`,
    ),
    message: `src/${floor} may import only the floors below it (see docs/architecture.md).`,
  })),
);

export default tseslint.config(
  { ignores: ["dist/**", "node_modules/**", "reports/**", "tests/fixtures/**", "tests/golden/**", "data/**"] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  { ...tseslint.configs.disableTypeChecked, files: ["*.config.ts"] },
  {
    files: ["src/**/*.ts", "tests/**/*.ts", "tools/**/*.ts", "bench/**/*.ts"],
    plugins: { "import-x": importX },
    languageOptions: {
      parserOptions: { project: "./tsconfig.all.json", tsconfigRootDir: import.meta.dirname },
    },
    settings: {
      "import-x/resolver-next": [
        createNodeResolver({ extensions: [".ts", ".js"], extensionAlias: { ".js": [".ts", ".js"] } }),
      ],
    },
    rules: {
      "import-x/no-restricted-paths": ["error", { zones: zones.filter((zone) => zone.from.length > 0) }],
      "import-x/no-default-export": "error",
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/no-floating-promises": "error",
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/restrict-template-expressions": "off",
      "@typescript-eslint/unified-signatures": "off",
      "no-console": "error",
      "max-lines": ["warn", { max: 250, skipBlankLines: true, skipComments: true }],
    },
  },
  { files: ["*.config.ts", "*.config.js"], rules: { "import-x/no-default-export": "off" } },
  { files: ["src/cli/**", "tools/**", "bench/**", "tests/**"], rules: { "no-console": "off", "max-lines": "off" } },
  {
    files: ["**/*.js", "**/*.mjs"],
    extends: [tseslint.configs.disableTypeChecked],
    languageOptions: { globals: { process: "readonly", console: "readonly" } },
  },
);
