/** What a material weighs and how it grows. */
export interface Material {
  /** As it is spoken of: 304. */
  readonly name: string;
  /** EN number. */
  readonly number: string;
  /** kg / m3 at 20 C. */
  readonly density: number;
  /** Growth per length from 20 C to a temperature (C): 0.00864 at 500 C is 4.32 mm on 500 mm. */
  readonly growth: (temperature: number) => number;
}

/** Growth from mean coefficients (1e-6 / K from 20 C), linear between the temperatures of the table. */
function fromMeans(means: readonly (readonly [temperature: number, mean: number])[]) {
  return (temperature: number): number => {
    const first = means[0] ?? [100, 0];
    let mean = temperature <= first[0] ? first[1] : (means.at(-1)?.[1] ?? 0);
    means.slice(1).forEach(([t, m], i) => {
      const [below, at] = means[i] ?? first;
      if (temperature > below && temperature <= t)
        mean = at + ((m - at) * (temperature - below)) / (t - below);
    });
    return mean * 1e-6 * (temperature - 20);
  };
}

const austenitic = fromMeans([
  [100, 16],
  [200, 16.5],
  [300, 17],
  [400, 17.5],
  [500, 18],
]);
const ferritic = fromMeans([
  [100, 10.5],
  [200, 11],
  [300, 11.5],
  [400, 12],
  [500, 12],
]);
/** Carbon steel, 20 to 750 C: EN 1993-1-2, its formula for thermal elongation. */
const carbon = (t: number): number => 1.2e-5 * t + 0.4e-8 * t * t - 2.416e-4;

/**
 * Densities: EN 10088-1 and EN 1993-1-1 3.2.6 (handbooks in inches print 8000 for 304; this one is printed
 * with the mass). Expansion: EN 10088-1 (304 beyond 100 C from memory, the same row as 321 in the standard),
 * a supplier's sheet for 409, EN 1993-1-2 for mild steel. Sources differ by 3 to 5 %.
 */
const materials: readonly Material[] = [
  { name: '304', number: '1.4301', density: 7900, growth: austenitic },
  { name: '321', number: '1.4541', density: 7900, growth: austenitic },
  { name: '409', number: '1.4512', density: 7700, growth: ferritic },
  { name: 'mild steel', number: '1.0038', density: 7850, growth: carbon },
];

const names: Readonly<Record<string, string>> = {
  '304l': '304',
  '1.4307': '304',
  '1.4301': '304',
  '321': '321',
  '1.4541': '321',
  '409': '409',
  '409l': '409',
  '1.4512': '409',
  '304': '304',
  mild: 'mild steel',
  'mild steel': 'mild steel',
  steel: 'mild steel',
  s235: 'mild steel',
  s235jr: 'mild steel',
  '1.0038': 'mild steel',
};

/** A material by its name or EN number, or undefined where the tables do not know it. */
export function materialOf(name: string): Material | undefined {
  const asked = name.trim().toLowerCase();
  const found = Object.hasOwn(names, asked) ? names[asked] : undefined;
  return materials.find((material) => material.name === found);
}
