/** Figures, as ratios in one run; nothing here is asserted. `npm run bench` */
import { benchCycle } from './cycle.ts';
import { benchGap } from './gap.ts';
import { benchSolid } from './solid.ts';
import { benchSolver } from './solver.ts';

benchSolver();
benchCycle();
benchSolid();
benchGap();
