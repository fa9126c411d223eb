// Reports of shipped cases: one with sections that move, a line of belt and brush, one without
// sections.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

const cases = ['first-look', 'panel-punched', 'cover-grained'];

/** Makes the pages in a folder and lists them. */
export function pages({ program, examples, folder }) {
  return cases.map((name) => {
    const out = join(folder, `report-${name}`);
    execFileSync(program, [
      'run', join(examples, `${name}.toml`), '--out', out, '--no-pictures', '--quiet',
    ]);
    return {
      name: `report of ${name}`,
      file: join(out, 'report.html'),
      // Words that have to be there with scripts off too.
      says: ['not a safety assessment', 'SHA-256 of the case', 'Limits of the customer', 'How sure'],
      // Group with a slider that moves what carries this attribute; left out where nothing moves.
      ...(name === 'cover-grained' ? {} : { moving: { group: '.pass', attribute: 'data-drum-x' } }),
    };
  });
}
