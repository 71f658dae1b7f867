import { useBench } from '../../bench/bench.ts';

/** Try. */
export default function TrySheet() {
  const bench = useBench();
  return <p>{bench.made.value?.result.print.lay}</p>;
}
