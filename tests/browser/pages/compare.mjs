// Comparisons of shipped cases: two with sections, and lines that share no edge.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

const sets = [
  ['panel-soft', 'panel-hard'],
  ['panel-punched', 'panel-soft', 'cover-planetary'],
];

/** Makes the pages in a folder and lists them. */
export function pages({ program, examples, folder }) {
  return sets.map((names) => {
    const file = join(folder, `compare-${names.join('-')}.html`);
    execFileSync(program, [
      'compare', ...names.map((name) => join(examples, `${name}.toml`)), '--out', file, '--quiet',
    ]);
    return {
      name: `comparison of ${names.join(', ')}`,
      file,
      // Words that have to be there with scripts off too.
      says: ['not a safety assessment', 'SHA-256', 'Guess first', 'Held equal', 'How sure this is'],
    };
  });
}
