// One-way imports: each room may import only rooms to its right, and only its own neighbours' files.
const rooms = ['cli', 'build', 'files', 'solid', 'design', 'job', 'read', 'geom', 'base'];

module.exports = {
  forbidden: [
    ...rooms.map((room, i) => ({
      name: `${room}-imports-only-to-its-right`,
      severity: 'error',
      from: { path: `^src/${room}/` },
      to: { path: `^src/(${[...rooms.slice(0, i), 'index'].join('|')})(/|\\.ts$)` },
    })),
    {
      name: 'no-circles',
      severity: 'error',
      from: {},
      to: { circular: true, dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'kernel-only-in-solid',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/solid/' },
      to: { path: 'node_modules/(replicad|replicad-opencascadejs|opencascade\\.js)/' },
    },
    {
      name: 'disk-only-at-the-edges',
      severity: 'error',
      from: { path: '^src/(base|geom|job|design)/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'no-tests-in-src',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^(tests|fixtures)/' },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default'] },
  },
};
