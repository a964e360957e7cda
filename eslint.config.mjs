import next from "eslint-config-next/core-web-vitals";
import tseslint from "typescript-eslint";
import { pureRooms } from "./scripts/lint/rooms.mjs";

/** What a pure room may not touch: the same input must give the same answer, everywhere and always. */
const impureGlobals = [
  "process",
  "performance",
  "Date",
  "crypto",
  "fetch",
  "setTimeout",
  "setInterval",
  "queueMicrotask",
  "localStorage",
  "window",
  "document",
  "globalThis",
  "require",
  "__dirname",
  "Buffer",
].map((name) => ({ name, message: "Pure rooms know no clock, randomness, environment or machine; pass the value in." }));

const impureSyntax = [
  { selector: "MemberExpression[object.name='Math'][property.name='random']", message: "Pass random numbers in." },
  { selector: "MemberExpression[object.name='Math'][property.value='random']", message: "Pass random numbers in." },
  { selector: "MetaProperty[meta.name='import']", message: "Pure rooms do not know where they are." },
  { selector: "ImportExpression", message: "Pure rooms load nothing at run time." },
];

export default tseslint.config(
  {
    ignores: [".next/**", ".data/**", "dist/**", "lib/store/generated/**", "next-env.d.ts", "test-results/**",
      "playwright-report/**", "tests/fixtures/rooms/**"],
  },
  ...next,
  {
    files: ["**/*.ts", "**/*.tsx"],
    extends: [...tseslint.configs.strict],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/consistent-type-imports": "error",
      // Loops over points index arrays within their bounds; a branch for a case that cannot be would only hide faults.
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/no-floating-promises": "error",
      "@typescript-eslint/no-misused-promises": ["error", { checksVoidReturn: { attributes: false } }],
      "@typescript-eslint/await-thenable": "error",
      "@typescript-eslint/switch-exhaustiveness-check": ["error", { considerDefaultExhaustiveForUnions: true }],
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
    },
  },
  {
    // A line of code that is a decision needs no rule; these keep files and functions of a size that can be read.
    files: ["lib/**/*.ts", "app/**/*.ts", "app/**/*.tsx", "scripts/**/*.mjs"],
    rules: {
      eqeqeq: ["error", "always"],
      "no-console": "error",
      "max-lines": ["warn", { max: 400, skipBlankLines: true, skipComments: true }],
    },
  },
  { files: ["lib/cli/**/*.ts", "scripts/**/*.mjs"], rules: { "no-console": "off" } },
  {
    files: pureRooms.map((room) => `lib/${room}/**/*.ts`),
    rules: { "no-restricted-globals": ["error", ...impureGlobals], "no-restricted-syntax": ["error", ...impureSyntax] },
  },
);
