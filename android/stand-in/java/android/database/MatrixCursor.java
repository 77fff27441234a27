package android.database;

import java.util.ArrayList;
import java.util.List;

/** Rows in memory. */
public class MatrixCursor extends AbstractCursor {
    private final List<List<Object>> rows = new ArrayList<>();
    private int at = -1;

    public MatrixCursor(String[] columns) {}

    public RowBuilder newRow() {
        rows.add(new ArrayList<>());
        return new RowBuilder();
    }

    @Override
    public int getCount() {
        return rows.size();
    }

    @Override
    public boolean moveToFirst() {
        at = 0;
        return !rows.isEmpty();
    }

    @Override
    public boolean isNull(int column) {
        return rows.get(at).get(column) == null;
    }

    @Override
    public String getString(int column) {
        return String.valueOf(rows.get(at).get(column));
    }

    /** Fills a row. */
    public class RowBuilder {
        public RowBuilder add(Object value) {
            rows.get(rows.size() - 1).add(value);
            return this;
        }
    }
}
