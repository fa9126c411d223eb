// The lesson of a shipped case: its sliders move the drum.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

/** Makes the pages in a folder and lists them. */
export function pages({ program, examples, folder }) {
  return ['panel-soft'].map((name) => {
    const file = join(folder, `lesson-${name}.html`);
    execFileSync(program, ['lesson', join(examples, `${name}.toml`), '--out', file, '--quiet']);
    return {
      name: `lesson of ${name}`,
      file,
      // Words that have to be there with scripts off too.
      says: ['not a safety assessment', 'interference', 'line load'],
    };
  });
}
