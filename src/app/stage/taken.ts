/** Whether a hand has moved the camera away from the chosen view. Nothing of it outlives the page. */
import { create } from 'zustand';

interface Taken {
  isTaken: boolean;
  setTaken(isTaken: boolean): void;
}

export const useTaken = create<Taken>()(set => ({
  isTaken: false,
  setTaken: isTaken => set({ isTaken }),
}));
