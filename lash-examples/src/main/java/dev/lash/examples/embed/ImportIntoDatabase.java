package dev.lash.examples.embed;

import dev.lash.check.ImportedMachine;
import dev.lash.check.ImportedReading;
import dev.lash.check.ReadingField;
import dev.lash.check.ReadingRecord;
import dev.lash.check.ReadingValidator;
import dev.lash.check.RecordLayout;
import dev.lash.check.RowOutcome;
import dev.lash.check.ValidationProfile;
import dev.lash.check.ValidationRun;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Usage;
import java.sql.Connection;
import java.sql.Date;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Validates rows inside a database's import loop: one transaction for each machine, so that a machine is there whole or not at all. */
public final class ImportIntoDatabase {
    private static final RecordLayout LAYOUT = RecordLayout.builder(List.of("bike", "day", "km", "valve", "go", "stop"))
            .column(ReadingField.MACHINE, "bike")
            .column(ReadingField.DATE, "day")
            .column(ReadingField.USAGE, "km")
            .column(ReadingField.VALVE, "valve")
            .column(ReadingField.GOES, "go")
            .column(ReadingField.REFUSES, "stop")
            .unit(LengthUnit.MILLIMETRE)
            .usageUnit(Usage.Unit.KILOMETRE)
            .build();

    private ImportIntoDatabase() {}

    /**
     * Makes a database in memory with some rows of another system, imports them, and prints what became of them.
     *
     * @param args not used
     * @throws SQLException if the database fails
     */
    public static void main(String[] args) throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:h2:mem:school")) {
            handedOver(connection);
            System.out.println(run(connection));
        }
    }

    private static void handedOver(Connection connection) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute("create table handed_over (id int primary key, bike varchar(40), visit_day varchar(20),"
                    + " km varchar(20), valve varchar(20), go varchar(20), stop varchar(20))");
            statement.execute("insert into handed_over values"
                    + " (1, 'Hill bike 5', '2031-04-02', '9120', '1-in-1', '0.10', '0.13'),"
                    + " (2, 'Hill bike 5', '2031-04-02', '9120', '1-ex-1', '0.17', '0.20'),"
                    + " (3, 'Hill bike 6', '2031-04-03', '4410', '1-in-1', '0.004', '0.005'),"
                    + " (4, 'Hill bike 6', '2031-04-03', '4410', '1-ex-1', '0.17', '0.20')");
        }
    }

    /**
     * Imports the rows of the table {@code handed_over}, machine by machine.
     *
     * @param connection the database
     * @return how many readings were added, and what is to be said
     * @throws SQLException if the database fails; the machine that was being imported is then rolled back
     */
    static String run(Connection connection) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute("create table if not exists reading (bike varchar(40), visit_day date, km decimal(12, 3),"
                    + " valve varchar(12), clearance varchar(40), primary key (bike, visit_day, valve))");
        }
        EngineSpec engine = EngineSpec.builder("hill-bike", "Hill bike, training single")
                .valves("1-in-1", "1-ex-1")
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
                .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
                .build();
        ReadingValidator validator = ReadingValidator.of(
                bike -> Optional.of(ImportedMachine.of(engine)),
                ValidationProfile.defaults(),
                LocalDate.of(2031, 6, 1));
        List<RowOutcome> outcomes = new ArrayList<>();
        ValidationRun run = validator.begin(outcomes::add);
        StringBuilder said = new StringBuilder();
        int added = 0;
        connection.setAutoCommit(false);
        try (Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery("select * from handed_over order by bike, visit_day, id")) {
            String machine = "";
            while (rows.next()) {
                String bike = rows.getString("bike");
                if (!bike.equals(machine)) {
                    added += store(connection, run, machine, outcomes, said);
                    machine = bike;
                }
                run.accept(ReadingRecord.of(
                        LAYOUT,
                        rows.getLong("id"),
                        bike,
                        rows.getString("visit_day"),
                        rows.getString("km"),
                        rows.getString("valve"),
                        rows.getString("go"),
                        rows.getString("stop")));
            }
            added += store(connection, run, machine, outcomes, said);
        }
        return added + " readings added\n" + said.toString().strip();
    }

    /** Writes the readings of one machine in one transaction; a machine with a rejected row is left out whole. */
    private static int store(
            Connection connection, ValidationRun run, String machine, List<RowOutcome> outcomes, StringBuilder said)
            throws SQLException {
        run.forget(machine);
        boolean clean = outcomes.stream().noneMatch(o -> o.fate() == RowOutcome.Fate.REJECTED);
        int added = 0;
        try (PreparedStatement insert = connection.prepareStatement("insert into reading values (?, ?, ?, ?, ?)")) {
            for (RowOutcome outcome : outcomes) {
                outcome.findings()
                        .forEach(
                                f -> said.append(machine).append(", ").append(f).append('\n'));
                if (clean && outcome.findReading().isPresent()) {
                    ImportedReading reading = outcome.findReading().get();
                    insert.setString(1, machine);
                    insert.setDate(2, Date.valueOf(reading.date()));
                    insert.setBigDecimal(3, reading.usage().amount());
                    insert.setString(4, reading.valve().toString());
                    insert.setString(5, reading.found().toString());
                    added += insert.executeUpdate();
                }
            }
            connection.commit();
        } catch (SQLException failed) {
            connection.rollback();
            throw failed;
        } finally {
            outcomes.clear();
        }
        return added;
    }
}
