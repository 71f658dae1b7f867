import { useBench } from '../../bench/bench.ts';

/** Print. */
export default function PrintSheet() {
  const bench = useBench();
  return <p>{bench.made.value?.result.print.lay}</p>;
}
