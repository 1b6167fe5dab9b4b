import eslint from '@eslint/js';
import tseslint from 'typescript-eslint';

const core = ['src/base/**', 'src/geom/**', 'src/read/**', 'src/job/**', 'src/design/**'];

export default tseslint.config(
  eslint.configs.recommended,
  ...tseslint.configs.recommended,
  {
    rules: {
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      // A line of types alone must leave nothing behind when it runs.
      '@typescript-eslint/no-import-type-side-effects': 'error',
      '@typescript-eslint/explicit-module-boundary-types': 'error',
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      eqeqeq: 'error',
      'prefer-const': 'error',
    },
  },
  {
    // The core is pure: same job, same seed, same bytes.
    files: core,
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'Take a seeded Random (base/random).' },
        { object: 'Date', property: 'now', message: 'The clock is an argument.' },
        { object: 'performance', property: 'now', message: 'The clock is an argument.' },
      ],
      'no-restricted-globals': ['error', 'process', 'console', 'Date'],
    },
  },
  {
    files: ['src/solid/**', 'src/files/**', 'src/build/**'],
    rules: { 'no-restricted-globals': ['error', 'console'] },
  },
  {
    files: ['tests/**', '**/*.js', '**/*.cjs'],
    languageOptions: {
      globals: {
        process: 'readonly',
        console: 'readonly',
        module: 'readonly',
        URL: 'readonly',
        performance: 'readonly',
        Buffer: 'readonly',
      },
    },
    rules: { '@typescript-eslint/explicit-module-boundary-types': 'off' },
  },
);
