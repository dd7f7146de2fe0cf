import tseslint from "typescript-eslint";

/** One rule set for the whole house; the domain is kept pure by two rules more. */
export default tseslint.config(
  { ignores: ["dist/", "node_modules/", "test-results/", "playwright-report/"] },
  ...tseslint.configs.recommended,
  {
    rules: {
      eqeqeq: "error",
      "prefer-const": "error",
      "no-console": "error",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/no-non-null-assertion": "off",
    },
  },
  { files: ["scripts/**", "bench/**", "src/cli/**", "test/**"], rules: { "no-console": "off" } },
  {
    files: ["src/**/*.ts"],
    ignores: ["src/app/**", "src/cli/**", "**/*.test.ts"],
    rules: {
      "no-restricted-properties": [
        "error",
        { object: "Math", property: "random", message: "Chance is an argument: use seededRandom." },
        { object: "Date", property: "now", message: "The clock is an argument." },
        { object: "performance", property: "now", message: "The clock is an argument." },
      ],
      "no-restricted-syntax": [
        "error",
        { selector: "NewExpression[callee.name='Date']", message: "The clock is an argument." },
      ],
    },
  },
);
