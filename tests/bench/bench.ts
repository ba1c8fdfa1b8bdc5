/** Figures, as ratios in one run; nothing here is asserted. `npm run bench` */
import { benchSolver } from './solver.ts';

benchSolver();
