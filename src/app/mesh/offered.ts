/** Mesh files that were dropped or chosen and that the build does not name yet: each is asked about in turn. */
import { create } from 'zustand';
import { act } from '../state/action.ts';
import { showDialog } from '../state/look.ts';

export interface OfferedMesh {
  name: string;
  bytes: Uint8Array;
}

export const useOffered = create<{ queue: readonly OfferedMesh[] }>()(() => ({ queue: [] }));

export function offerMeshes(files: ReadonlyMap<string, Uint8Array>): void {
  const queue = [...files].map(([name, bytes]) => ({ name, bytes }));
  useOffered.setState({ queue });
  if (queue.length > 0) act(showDialog, 'addMesh');
}

/** The first one is dealt with; once none is left the question goes away. */
export function nextMesh(): void {
  const [, ...queue] = useOffered.getState().queue;
  useOffered.setState({ queue });
  if (queue.length === 0) act(showDialog, null);
}
