"""The history: people, vehicles, visits, cases, evidence, conclusions, and the full-text index over vehicles."""

import sqlalchemy as sa
import sqlmodel
from alembic import op

revision = "0001"
down_revision = None
branch_labels = depends_on = None

TEXT = sqlmodel.AutoString()
MOMENT = sqlmodel.sql.sqltypes.UTCDateTime()


def upgrade():
    for table in (
        customers,
        people,
        trail,
        vehicles,
        cases,
        vehicle_words,
        visits,
        case_visits,
        codes,
        codes_cleared,
        jobs,
        results,
        snapshots,
        symptoms,
        closings,
        duties,
        parts,
    ):
        table()
    full_text()


def downgrade():
    raise NotImplementedError("A way back is a restored backup.")


def stamped():
    return (
        *each(TEXT, "site_id", "id"),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("recorded_at", MOMENT, nullable=False),
        sa.Column("recorded_by", TEXT, nullable=False),
    )


def strikeable():
    return (
        *stamped(),
        sa.Column("voided_at", MOMENT, nullable=True),
        sa.Column("voided_by", TEXT, nullable=True),
        sa.Column("void_reason", TEXT, nullable=False),
    )


def of_a_visit():
    return (
        *strikeable(),
        sa.Column("visit_id", TEXT, nullable=False),
        sa.Column("case_id", TEXT, nullable=True),
        *each(TEXT, "source", "note"),
    )


def each(kind, *names, nullable=False):
    return (sa.Column(name, kind, nullable=nullable) for name in names)


def site_and_id(table):
    return sa.PrimaryKeyConstraint("site_id", "id", name=f"pk_{table}")


def refers(table, column, other):
    name = f"fk_{table}_{column}_{other}"
    return sa.ForeignKeyConstraint(["site_id", column], [f"{other}.site_id", f"{other}.id"], name=name)


def known_from(table):
    sources = "source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')"
    return sa.CheckConstraint(sources, name=op.f(f"ck_{table}_source_word"))


def minutes_not_negative(table):
    return sa.CheckConstraint("minutes IS NULL OR minutes >= 0", name=op.f(f"ck_{table}_minutes_not_negative"))


def customers():
    op.create_table(
        "customers",
        *stamped(),
        *each(TEXT, "name", "name_key", "phone"),
        sa.CheckConstraint("name <> ''", name=op.f("ck_customers_name_given")),
        site_and_id("customers"),
    )
    op.create_index("ix_customers_site_id_name_key", "customers", ["site_id", "name_key"])


def people():
    op.create_table(
        "people",
        *stamped(),
        *each(TEXT, "name", "role"),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.CheckConstraint("name <> ''", name=op.f("ck_people_name_given")),
        sa.CheckConstraint("role IN ('technician', 'advisor', 'manager')", name=op.f("ck_people_role_word")),
        site_and_id("people"),
    )


def trail():
    op.create_table(
        "trail",
        *each(TEXT, "site_id", "id"),
        sa.Column("at", MOMENT, nullable=False),
        *each(TEXT, "who", "what", "entry_id"),
        sa.Column("details", sa.JSON(), nullable=False),
        site_and_id("trail"),
    )
    op.create_index("ix_trail_site_id_at", "trail", ["site_id", "at"])
    op.create_index("ix_trail_site_id_entry_id", "trail", ["site_id", "entry_id"])


def vehicles():
    op.create_table(
        "vehicles",
        *stamped(),
        *each(TEXT, "name", "plate", "plate_key", "vin"),
        sa.Column("customer_id", TEXT, nullable=True),
        *each(sa.JSON(), "banks", "firing_order", "traits"),
        sa.CheckConstraint("name <> '' OR plate <> '' OR vin <> ''", name=op.f("ck_vehicles_called_something")),
        refers("vehicles", "customer_id", "customers"),
        site_and_id("vehicles"),
    )
    op.create_index("ix_vehicles_site_id_customer_id", "vehicles", ["site_id", "customer_id"])
    op.create_index(
        "uq_vehicles_plate", "vehicles", ["site_id", "plate_key"], unique=True, sqlite_where=sa.text("plate_key <> ''")
    )
    op.create_index("uq_vehicles_vin", "vehicles", ["site_id", "vin"], unique=True, sqlite_where=sa.text("vin <> ''"))


def cases():
    op.create_table(
        "cases",
        *stamped(),
        *each(TEXT, "vehicle_id", "complaint", "complaint_place", "state", "reproduced"),
        *each(sa.JSON(), "reproduced_conditions", "may_drive", "open_covers"),
        sa.CheckConstraint("reproduced IN ('yes', 'no', 'not tried')", name=op.f("ck_cases_reproduced_word")),
        sa.CheckConstraint("state IN ('open', 'closed')", name=op.f("ck_cases_state_word")),
        refers("cases", "vehicle_id", "vehicles"),
        site_and_id("cases"),
    )
    op.create_index("ix_cases_site_id_state_recorded_at", "cases", ["site_id", "state", "recorded_at"])
    op.create_index("ix_cases_site_id_vehicle_id", "cases", ["site_id", "vehicle_id"])


def vehicle_words():
    op.create_table(
        "vehicle_words",
        sa.Column("number", sa.Integer(), nullable=False),
        *each(TEXT, "site_id", "vehicle_id", "plate", "vin", "name", "customer", "orders"),
        refers("vehicle_words", "vehicle_id", "vehicles"),
        sa.PrimaryKeyConstraint("number", name="pk_vehicle_words"),
        sa.UniqueConstraint("site_id", "vehicle_id", name="uq_vehicle_words_site_id_vehicle_id"),
    )


def visits():
    op.create_table(
        "visits",
        *strikeable(),
        sa.Column("vehicle_id", TEXT, nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("here", sa.Boolean(), nullable=False),
        *each(TEXT, "shop", "order_number"),
        sa.Column("day", sa.Date(), nullable=True),
        *each(TEXT, "when_words", "odometer_typed", "odometer_unit"),
        sa.Column("odometer_km", sa.Float(), nullable=True),
        *each(TEXT, "complaint_words", "cost"),
        sa.Column("minutes", sa.Float(), nullable=True),
        sa.CheckConstraint("(odometer_km IS NULL) = (odometer_unit = '')", name=op.f("ck_visits_odometer_with_unit")),
        sa.CheckConstraint("odometer_unit IN ('', 'km', 'mi')", name=op.f("ck_visits_odometer_unit_word")),
        minutes_not_negative("visits"),
        sa.CheckConstraint("odometer_km IS NULL OR odometer_km >= 0", name=op.f("ck_visits_odometer_not_negative")),
        refers("visits", "vehicle_id", "vehicles"),
        site_and_id("visits"),
    )
    op.create_index("ix_visits_site_id_order_number", "visits", ["site_id", "order_number"])
    op.create_index("ix_visits_site_id_vehicle_id_position", "visits", ["site_id", "vehicle_id", "position"])


def case_visits():
    op.create_table(
        "case_visits",
        *stamped(),
        *each(TEXT, "case_id", "visit_id"),
        refers("case_visits", "case_id", "cases"),
        refers("case_visits", "visit_id", "visits"),
        site_and_id("case_visits"),
        sa.UniqueConstraint("site_id", "case_id", "visit_id", name="uq_case_visits_site_id_case_id_visit_id"),
    )
    op.create_index("ix_case_visits_site_id_visit_id", "case_visits", ["site_id", "visit_id"])


def codes():
    op.create_table(
        "codes",
        *of_a_visit(),
        *each(TEXT, "code", "state"),
        sa.Column("freeze_frame", sa.JSON(), nullable=False),
        known_from("codes"),
        sa.CheckConstraint(
            "state IN ('pending', 'confirmed', 'permanent', 'absent')", name=op.f("ck_codes_state_word")
        ),
        refers("codes", "case_id", "cases"),
        refers("codes", "visit_id", "visits"),
        site_and_id("codes"),
    )
    op.create_index("ix_codes_site_id_code", "codes", ["site_id", "code"])
    op.create_index("ix_codes_site_id_visit_id", "codes", ["site_id", "visit_id"])


def codes_cleared():
    op.create_table(
        "codes_cleared",
        *of_a_visit(),
        sa.Column("cleared_where", TEXT, nullable=False),
        sa.Column("km_ago", sa.Float(), nullable=True),
        sa.Column("day", sa.Date(), nullable=True),
        known_from("codes_cleared"),
        refers("codes_cleared", "case_id", "cases"),
        refers("codes_cleared", "visit_id", "visits"),
        site_and_id("codes_cleared"),
    )
    op.create_index("ix_codes_cleared_site_id_visit_id", "codes_cleared", ["site_id", "visit_id"])


def jobs():
    op.create_table(
        "jobs",
        *of_a_visit(),
        sa.Column("operation", TEXT, nullable=False),
        sa.Column("places", sa.JSON(), nullable=False),
        sa.Column("minutes", sa.Float(), nullable=True),
        known_from("jobs"),
        minutes_not_negative("jobs"),
        refers("jobs", "case_id", "cases"),
        refers("jobs", "visit_id", "visits"),
        site_and_id("jobs"),
    )
    op.create_index("ix_jobs_site_id_operation", "jobs", ["site_id", "operation"])
    op.create_index("ix_jobs_site_id_visit_id", "jobs", ["site_id", "visit_id"])


def results():
    op.create_table(
        "results",
        *of_a_visit(),
        *each(TEXT, "test", "place", "outcome"),
        sa.Column("reading_typed", TEXT, nullable=True),
        sa.Column("reading_value", sa.Float(), nullable=True),
        sa.Column("reading_unit", TEXT, nullable=True),
        *each(sa.Float(), "reading_resolution", "low", "high", nullable=True),
        sa.Column("specification_source", TEXT, nullable=True),
        *each(sa.Float(), "weight_abnormal", "weight_normal", nullable=True),
        sa.Column("situations", sa.JSON(), nullable=False),
        sa.Column("after_work", sa.Boolean(), nullable=False),
        sa.Column("minutes", sa.Float(), nullable=True),
        sa.CheckConstraint("outcome IN ('normal', 'abnormal', 'uncertain')", name=op.f("ck_results_outcome_word")),
        known_from("results"),
        sa.CheckConstraint(
            "(reading_value IS NULL) = (reading_unit IS NULL)", name=op.f("ck_results_reading_with_unit")
        ),
        sa.CheckConstraint(
            "(weight_abnormal IS NULL) = (weight_normal IS NULL)", name=op.f("ck_results_weights_together")
        ),
        minutes_not_negative("results"),
        refers("results", "case_id", "cases"),
        refers("results", "visit_id", "visits"),
        site_and_id("results"),
    )
    op.create_index("ix_results_site_id_test_outcome", "results", ["site_id", "test", "outcome"])
    op.create_index("ix_results_site_id_visit_id", "results", ["site_id", "visit_id"])


def snapshots():
    op.create_table(
        "snapshots",
        *stamped(),
        *each(TEXT, "case_id", "why", "rules_version"),
        sa.Column("board", sa.JSON(), nullable=False),
        sa.Column("minutes", sa.Float(), nullable=True),
        sa.CheckConstraint("why IN ('result recorded', 'decision', 'closing')", name=op.f("ck_snapshots_why_word")),
        minutes_not_negative("snapshots"),
        refers("snapshots", "case_id", "cases"),
        site_and_id("snapshots"),
    )
    op.create_index("ix_snapshots_site_id_case_id_recorded_at", "snapshots", ["site_id", "case_id", "recorded_at"])


def symptoms():
    op.create_table(
        "symptoms",
        *of_a_visit(),
        *each(TEXT, "symptom", "place", "presence"),
        sa.Column("conditions", sa.JSON(), nullable=False),
        sa.Column("absent_for_km", sa.Float(), nullable=True),
        sa.Column("after_visit_id", TEXT, nullable=True),
        sa.CheckConstraint(
            "presence IN ('present', 'absent', 'not reproduced')", name=op.f("ck_symptoms_presence_word")
        ),
        known_from("symptoms"),
        refers("symptoms", "after_visit_id", "visits"),
        refers("symptoms", "case_id", "cases"),
        refers("symptoms", "visit_id", "visits"),
        site_and_id("symptoms"),
    )
    op.create_index("ix_symptoms_site_id_visit_id", "symptoms", ["site_id", "visit_id"])


def closings():
    op.create_table(
        "closings",
        *strikeable(),
        *each(TEXT, "case_id", "cause", "place"),
        sa.Column("deciding_result_id", TEXT, nullable=True),
        sa.Column("introduced", TEXT, nullable=False),
        sa.Column("introduced_by_job_id", TEXT, nullable=True),
        sa.Column("minutes", sa.Float(), nullable=True),
        sa.Column("note", TEXT, nullable=False),
        sa.CheckConstraint("(cause = '') = (place = '')", name=op.f("ck_closings_cause_with_place")),
        sa.CheckConstraint(
            "introduced IN ('by a job', 'not by a job', 'not known')", name=op.f("ck_closings_introduced_word")
        ),
        sa.CheckConstraint(
            "introduced_by_job_id IS NULL OR introduced = 'by a job'", name=op.f("ck_closings_job_introduced")
        ),
        minutes_not_negative("closings"),
        refers("closings", "case_id", "cases"),
        refers("closings", "deciding_result_id", "results"),
        refers("closings", "introduced_by_job_id", "jobs"),
        site_and_id("closings"),
    )
    op.create_index("ix_closings_site_id_case_id", "closings", ["site_id", "case_id"])
    op.create_index("ix_closings_site_id_cause", "closings", ["site_id", "cause"])


def duties():
    op.create_table(
        "duties",
        *of_a_visit(),
        *each(TEXT, "job_id", "duty", "state"),
        known_from("duties"),
        sa.CheckConstraint(
            "state IN ('verified', 'found wrong', 'not checked', 'not applicable')", name=op.f("ck_duties_state_word")
        ),
        refers("duties", "case_id", "cases"),
        refers("duties", "job_id", "jobs"),
        refers("duties", "visit_id", "visits"),
        site_and_id("duties"),
    )
    op.create_index("ix_duties_site_id_job_id", "duties", ["site_id", "job_id"])
    op.create_index("ix_duties_site_id_visit_id", "duties", ["site_id", "visit_id"])


def parts():
    op.create_table(
        "parts",
        *stamped(),
        sa.Column("job_id", TEXT, nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        *each(TEXT, "name", "number", "kind", "date_code"),
        sa.Column("receipt", sa.Boolean(), nullable=False),
        refers("parts", "job_id", "jobs"),
        site_and_id("parts"),
    )
    op.create_index("ix_parts_site_id_job_id", "parts", ["site_id", "job_id"])
    op.create_index("ix_parts_site_id_number", "parts", ["site_id", "number"])


COLUMNS = "plate, vin, name, customer, orders"
OLD = "old.number, old.plate, old.vin, old.name, old.customer, old.orders"
NEW = "new.number, new.plate, new.vin, new.name, new.customer, new.orders"


def full_text():
    """Letter triples over vehicle_words, kept in step by triggers: what went out must be said in full."""
    take_out = f"insert into vehicle_words_text(vehicle_words_text, rowid, {COLUMNS}) values ('delete', {OLD});"
    put_in = f"insert into vehicle_words_text(rowid, {COLUMNS}) values ({NEW});"
    op.execute(
        f"create virtual table vehicle_words_text using fts5({COLUMNS},"
        " content='vehicle_words', content_rowid='number', tokenize='trigram')"
    )
    op.execute(f"create trigger vehicle_words_put after insert on vehicle_words begin {put_in} end")
    op.execute(f"create trigger vehicle_words_gone after delete on vehicle_words begin {take_out} end")
    op.execute(f"create trigger vehicle_words_new after update on vehicle_words begin {take_out} {put_in} end")
