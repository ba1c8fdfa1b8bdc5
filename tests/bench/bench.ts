/** Figures, as ratios in one run; nothing here is asserted. `npm run bench`, or of one kind `npm run bench -- page`. */
import { benchCycle } from './cycle.ts';
import { benchDrag } from './drag.ts';
import { benchGap } from './gap.ts';
import { benchPage } from './page.ts';
import { benchProof } from './proof.ts';
import { benchSolid } from './solid.ts';
import { benchSolver } from './solver.ts';

const benches: Record<string, () => void | Promise<void>> = {
  solver: benchSolver,
  cycle: benchCycle,
  solid: benchSolid,
  gap: benchGap,
  proof: benchProof,
  drag: benchDrag,
  page: benchPage,
};

const [, , only] = process.argv;
for (const [name, bench] of Object.entries(benches)) {
  if (only === undefined || only === name) await bench();
}
