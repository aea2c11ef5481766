/** The way from the path to the page on which sites are pooled. */
export const PoolEntrance = ({
  isBegun,
  onOpen,
}: {
  readonly isBegun: boolean;
  readonly onOpen: () => void;
}) => (
  <p class="or">
    Summaries of several sites?{" "}
    <button type="button" onClick={onOpen}>
      {isBegun ? "Go on with the pool of sites" : "Pool several sites"}
    </button>
  </p>
);
