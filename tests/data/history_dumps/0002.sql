BEGIN;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
CREATE TABLE customers (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	phone VARCHAR NOT NULL, 
	CONSTRAINT pk_customers PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_customers_name_given CHECK (name <> '')
);
CREATE INDEX ix_customers_site_id_name_key ON customers (site_id, name_key);
CREATE TABLE people (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	role VARCHAR NOT NULL, 
	active BOOLEAN NOT NULL, 
	CONSTRAINT pk_people PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_people_name_given CHECK (name <> ''), 
	CONSTRAINT ck_people_role_word CHECK (role IN ('technician', 'advisor', 'manager'))
);
CREATE TABLE trail (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	at DATETIME NOT NULL, 
	who VARCHAR NOT NULL, 
	what VARCHAR NOT NULL, 
	entry_id VARCHAR NOT NULL, 
	details JSON NOT NULL, 
	CONSTRAINT pk_trail PRIMARY KEY (site_id, id)
);
CREATE INDEX ix_trail_site_id_at ON trail (site_id, at);
CREATE INDEX ix_trail_site_id_entry_id ON trail (site_id, entry_id);
CREATE TABLE vehicles (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	plate VARCHAR NOT NULL, 
	plate_key VARCHAR NOT NULL, 
	vin VARCHAR NOT NULL, 
	customer_id VARCHAR, 
	banks JSON NOT NULL, 
	firing_order JSON NOT NULL, 
	traits JSON NOT NULL, 
	CONSTRAINT pk_vehicles PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_vehicles_called_something CHECK (name <> '' OR plate <> '' OR vin <> ''), 
	CONSTRAINT fk_vehicles_customer_id_customers FOREIGN KEY(site_id, customer_id) REFERENCES customers (site_id, id)
);
CREATE INDEX ix_vehicles_site_id_customer_id ON vehicles (site_id, customer_id);
CREATE UNIQUE INDEX uq_vehicles_plate ON vehicles (site_id, plate_key) WHERE plate_key <> '';
CREATE UNIQUE INDEX uq_vehicles_vin ON vehicles (site_id, vin) WHERE vin <> '';
CREATE TABLE cases (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	vehicle_id VARCHAR NOT NULL, 
	complaint VARCHAR NOT NULL, 
	complaint_place VARCHAR NOT NULL, 
	state VARCHAR NOT NULL, 
	reproduced VARCHAR NOT NULL, 
	reproduced_conditions JSON NOT NULL, 
	may_drive JSON NOT NULL, 
	open_covers JSON NOT NULL, 
	CONSTRAINT pk_cases PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_cases_reproduced_word CHECK (reproduced IN ('yes', 'no', 'not tried')), 
	CONSTRAINT ck_cases_state_word CHECK (state IN ('open', 'closed')), 
	CONSTRAINT fk_cases_vehicle_id_vehicles FOREIGN KEY(site_id, vehicle_id) REFERENCES vehicles (site_id, id)
);
CREATE INDEX ix_cases_site_id_state_recorded_at ON cases (site_id, state, recorded_at);
CREATE INDEX ix_cases_site_id_vehicle_id ON cases (site_id, vehicle_id);
CREATE TABLE vehicle_words (
	number INTEGER NOT NULL, 
	site_id VARCHAR NOT NULL, 
	vehicle_id VARCHAR NOT NULL, 
	plate VARCHAR NOT NULL, 
	vin VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	customer VARCHAR NOT NULL, 
	orders VARCHAR NOT NULL, 
	CONSTRAINT pk_vehicle_words PRIMARY KEY (number), 
	CONSTRAINT fk_vehicle_words_vehicle_id_vehicles FOREIGN KEY(site_id, vehicle_id) REFERENCES vehicles (site_id, id), 
	CONSTRAINT uq_vehicle_words_site_id_vehicle_id UNIQUE (site_id, vehicle_id)
);
CREATE TABLE visits (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	vehicle_id VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	here BOOLEAN NOT NULL, 
	shop VARCHAR NOT NULL, 
	order_number VARCHAR NOT NULL, 
	day DATE, 
	when_words VARCHAR NOT NULL, 
	odometer_typed VARCHAR NOT NULL, 
	odometer_unit VARCHAR NOT NULL, 
	odometer_km FLOAT, 
	complaint_words VARCHAR NOT NULL, 
	cost VARCHAR NOT NULL, 
	minutes FLOAT, 
	CONSTRAINT pk_visits PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_visits_odometer_with_unit CHECK ((odometer_km IS NULL) = (odometer_unit = '')), 
	CONSTRAINT ck_visits_odometer_unit_word CHECK (odometer_unit IN ('', 'km', 'mi')), 
	CONSTRAINT ck_visits_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT ck_visits_odometer_not_negative CHECK (odometer_km IS NULL OR odometer_km >= 0), 
	CONSTRAINT fk_visits_vehicle_id_vehicles FOREIGN KEY(site_id, vehicle_id) REFERENCES vehicles (site_id, id)
);
CREATE INDEX ix_visits_site_id_order_number ON visits (site_id, order_number);
CREATE INDEX ix_visits_site_id_vehicle_id_position ON visits (site_id, vehicle_id, position);
CREATE TABLE case_visits (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	CONSTRAINT pk_case_visits PRIMARY KEY (site_id, id), 
	CONSTRAINT fk_case_visits_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_case_visits_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id), 
	CONSTRAINT uq_case_visits_site_id_case_id_visit_id UNIQUE (site_id, case_id, visit_id)
);
CREATE INDEX ix_case_visits_site_id_visit_id ON case_visits (site_id, visit_id);
CREATE TABLE codes (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	code VARCHAR NOT NULL, 
	state VARCHAR NOT NULL, 
	freeze_frame JSON NOT NULL, 
	CONSTRAINT pk_codes PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_codes_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT ck_codes_state_word CHECK (state IN ('pending', 'confirmed', 'permanent', 'absent')), 
	CONSTRAINT fk_codes_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_codes_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_codes_site_id_code ON codes (site_id, code);
CREATE INDEX ix_codes_site_id_visit_id ON codes (site_id, visit_id);
CREATE TABLE codes_cleared (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	cleared_where VARCHAR NOT NULL, 
	km_ago FLOAT, 
	day DATE, 
	CONSTRAINT pk_codes_cleared PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_codes_cleared_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT fk_codes_cleared_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_codes_cleared_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_codes_cleared_site_id_visit_id ON codes_cleared (site_id, visit_id);
CREATE TABLE jobs (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	operation VARCHAR NOT NULL, 
	places JSON NOT NULL, 
	minutes FLOAT, 
	CONSTRAINT pk_jobs PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_jobs_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT ck_jobs_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT fk_jobs_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_jobs_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_jobs_site_id_operation ON jobs (site_id, operation);
CREATE INDEX ix_jobs_site_id_visit_id ON jobs (site_id, visit_id);
CREATE TABLE results (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	test VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	outcome VARCHAR NOT NULL, 
	reading_typed VARCHAR, 
	reading_value FLOAT, 
	reading_unit VARCHAR, 
	reading_resolution FLOAT, 
	low FLOAT, 
	high FLOAT, 
	specification_source VARCHAR, 
	weight_abnormal FLOAT, 
	weight_normal FLOAT, 
	situations JSON NOT NULL, 
	after_work BOOLEAN NOT NULL, 
	minutes FLOAT, 
	CONSTRAINT pk_results PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_results_outcome_word CHECK (outcome IN ('normal', 'abnormal', 'uncertain')), 
	CONSTRAINT ck_results_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT ck_results_reading_with_unit CHECK ((reading_value IS NULL) = (reading_unit IS NULL)), 
	CONSTRAINT ck_results_weights_together CHECK ((weight_abnormal IS NULL) = (weight_normal IS NULL)), 
	CONSTRAINT ck_results_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT fk_results_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_results_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_results_site_id_test_outcome ON results (site_id, test, outcome);
CREATE INDEX ix_results_site_id_visit_id ON results (site_id, visit_id);
CREATE TABLE snapshots (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	why VARCHAR NOT NULL, 
	rules_version VARCHAR NOT NULL, 
	board JSON NOT NULL, 
	minutes FLOAT, 
	CONSTRAINT pk_snapshots PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_snapshots_why_word CHECK (why IN ('result recorded', 'decision', 'closing')), 
	CONSTRAINT ck_snapshots_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT fk_snapshots_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id)
);
CREATE INDEX ix_snapshots_site_id_case_id_recorded_at ON snapshots (site_id, case_id, recorded_at);
CREATE TABLE symptoms (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	symptom VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	presence VARCHAR NOT NULL, 
	conditions JSON NOT NULL, 
	absent_for_km FLOAT, 
	after_visit_id VARCHAR, 
	CONSTRAINT pk_symptoms PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_symptoms_presence_word CHECK (presence IN ('present', 'absent', 'not reproduced')), 
	CONSTRAINT ck_symptoms_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT fk_symptoms_after_visit_id_visits FOREIGN KEY(site_id, after_visit_id) REFERENCES visits (site_id, id), 
	CONSTRAINT fk_symptoms_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_symptoms_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_symptoms_site_id_visit_id ON symptoms (site_id, visit_id);
CREATE TABLE closings (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	cause VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	deciding_result_id VARCHAR, 
	introduced VARCHAR NOT NULL, 
	introduced_by_job_id VARCHAR, 
	minutes FLOAT, 
	note VARCHAR NOT NULL, left_open JSON DEFAULT '[]' NOT NULL, left_open_why VARCHAR DEFAULT '' NOT NULL, 
	CONSTRAINT pk_closings PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_closings_cause_with_place CHECK ((cause = '') = (place = '')), 
	CONSTRAINT ck_closings_introduced_word CHECK (introduced IN ('by a job', 'not by a job', 'not known')), 
	CONSTRAINT ck_closings_job_introduced CHECK (introduced_by_job_id IS NULL OR introduced = 'by a job'), 
	CONSTRAINT ck_closings_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT fk_closings_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_closings_deciding_result_id_results FOREIGN KEY(site_id, deciding_result_id) REFERENCES results (site_id, id), 
	CONSTRAINT fk_closings_introduced_by_job_id_jobs FOREIGN KEY(site_id, introduced_by_job_id) REFERENCES jobs (site_id, id)
);
CREATE INDEX ix_closings_site_id_case_id ON closings (site_id, case_id);
CREATE INDEX ix_closings_site_id_cause ON closings (site_id, cause);
CREATE TABLE duties (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	job_id VARCHAR NOT NULL, 
	duty VARCHAR NOT NULL, 
	state VARCHAR NOT NULL, photo VARCHAR DEFAULT '' NOT NULL, 
	CONSTRAINT pk_duties PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_duties_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT ck_duties_state_word CHECK (state IN ('verified', 'found wrong', 'not checked', 'not applicable')), 
	CONSTRAINT fk_duties_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_duties_job_id_jobs FOREIGN KEY(site_id, job_id) REFERENCES jobs (site_id, id), 
	CONSTRAINT fk_duties_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_duties_site_id_job_id ON duties (site_id, job_id);
CREATE INDEX ix_duties_site_id_visit_id ON duties (site_id, visit_id);
CREATE TABLE parts (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	job_id VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	number VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	date_code VARCHAR NOT NULL, 
	receipt BOOLEAN NOT NULL, 
	CONSTRAINT pk_parts PRIMARY KEY (site_id, id), 
	CONSTRAINT fk_parts_job_id_jobs FOREIGN KEY(site_id, job_id) REFERENCES jobs (site_id, id)
);
CREATE INDEX ix_parts_site_id_job_id ON parts (site_id, job_id);
CREATE INDEX ix_parts_site_id_number ON parts (site_id, number);
CREATE VIRTUAL TABLE vehicle_words_text using fts5(plate, vin, name, customer, orders, content='vehicle_words', content_rowid='number', tokenize='trigram');
CREATE TRIGGER vehicle_words_put after insert on vehicle_words begin insert into vehicle_words_text(rowid, plate, vin, name, customer, orders) values (new.number, new.plate, new.vin, new.name, new.customer, new.orders); end;
CREATE TRIGGER vehicle_words_gone after delete on vehicle_words begin insert into vehicle_words_text(vehicle_words_text, rowid, plate, vin, name, customer, orders) values ('delete', old.number, old.plate, old.vin, old.name, old.customer, old.orders); end;
CREATE TRIGGER vehicle_words_new after update on vehicle_words begin insert into vehicle_words_text(vehicle_words_text, rowid, plate, vin, name, customer, orders) values ('delete', old.number, old.plate, old.vin, old.name, old.customer, old.orders); insert into vehicle_words_text(rowid, plate, vin, name, customer, orders) values (new.number, new.plate, new.vin, new.name, new.customer, new.orders); end;
CREATE TABLE defects (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	words VARCHAR NOT NULL, 
	job_id VARCHAR, 
	photo VARCHAR NOT NULL, 
	CONSTRAINT pk_defects PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_defects_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT fk_defects_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id), 
	CONSTRAINT fk_defects_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_defects_job_id_jobs FOREIGN KEY(site_id, job_id) REFERENCES jobs (site_id, id)
);
CREATE INDEX ix_defects_site_id_visit_id ON defects (site_id, visit_id);
CREATE INDEX ix_defects_site_id_job_id ON defects (site_id, job_id);
CREATE INDEX ix_defects_site_id_kind ON defects (site_id, kind);
CREATE TABLE put_back (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	visit_id VARCHAR, 
	cover VARCHAR NOT NULL, 
	CONSTRAINT pk_put_back PRIMARY KEY (site_id, id), 
	CONSTRAINT fk_put_back_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_put_back_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_put_back_site_id_case_id ON put_back (site_id, case_id);
INSERT INTO alembic_version (version_num) VALUES ('0002');
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-7001-96ae-33ee6aa8cc55', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-700f-b94d-ab2ff19033f8', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO people (site_id, id, version, recorded_at, recorded_by, name, role, active) VALUES ('bay', 'ida', 1, '2026-06-01 09:30:00.000000', 'ida', 'Ida Lorne', 'technician', 1);
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7000-9f9d-8cefb5cb8446', '2026-06-01 09:30:00.000000', 'ida', 'added a person', 'ida', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7002-9467-9198cbb0b8cf', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-7001-96ae-33ee6aa8cc55', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7004-9eda-d8ea912e362d', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7003-aa9f-e5f15f767b5c', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7006-ac9f-9d78b6d1e572', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7005-a128-cd0afb39f1e8', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7008-b3b0-1743ae070fd9', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7007-b007-b0268d43b5b7', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700a-b963-26bfa8ca210d', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7009-b1ca-65ada42881b1', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700c-94fe-15cd03f1b11c', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700b-93fc-cf146064cdcc', '{"case": "019e8284-c5c0-7009-b1ca-65ada42881b1", "visit": "019e8284-c5c0-7005-a128-cd0afb39f1e8"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700e-a82f-8af3e1e4bbd9', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700d-ac29-42303681c3df', '{"case": "019e8284-c5c0-7009-b1ca-65ada42881b1", "visit": "019e8284-c5c0-7007-b007-b0268d43b5b7"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7010-9a46-eb0b6eface18', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-700f-b94d-ab2ff19033f8', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7012-aa7f-3de19f308ccf', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7011-9b2b-42762a468e34', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7014-a8e6-053266dc3bd9', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7013-a5af-4de334e946e6', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7016-8406-78ec9525eabe', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7015-adc0-26ee1adb1767', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7018-908f-2fe348cb92cc', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7017-a186-14a696f34995', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701a-ae31-c3ecddbb12ae', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-7019-be49-807c89987235', '{"case": "019e8284-c5c0-7017-a186-14a696f34995", "visit": "019e8284-c5c0-7013-a5af-4de334e946e6"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701c-8f55-30f59e0a7754', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-701b-a785-229672efc7ef', '{"case": "019e8284-c5c0-7017-a186-14a696f34995", "visit": "019e8284-c5c0-7015-adc0-26ee1adb1767"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701e-801f-31c6f3f95bf9', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701d-a1b5-4d265c56d5d3', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7020-be4e-b212173ca8a2', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701f-b4f8-3bf2cbf14279', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7022-90bd-2fe715c8df17', '2026-06-01 09:30:00.000000', 'ida', 'recorded a trouble code', '019e8284-c5c0-7021-a849-08842c52dfa8', '{"said": "P0303"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7024-b53c-0273ef72a1f9', '2026-06-01 09:30:00.000000', 'ida', 'recorded that codes had been cleared', '019e8284-c5c0-7023-ba4c-efbf3b9b90d5', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7026-9ab3-bf5317d18f68', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-7025-9636-7fd0644d858f', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7028-8f09-403ca55c0585', '2026-06-01 09:30:00.000000', 'ida', 'recorded a job', '019e8284-c5c0-7027-925d-af2b0bf179bc', '{"said": "adjust-valve-lash"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702c-9ca4-24fc2d7119f1', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702b-ac6b-07fa499212dd', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702e-ba5c-5c95ee9a03d7', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702d-a85c-a424134b761f', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7030-ad5a-780af76979b4', '2026-06-01 09:30:00.000000', 'ida', 'recorded a defect', '019e8284-c5c0-702f-aaa2-8dfb9133d201', '{"said": "oil-in-plug-well"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7031-b7f8-c3216fece747', '2026-06-01 09:30:00.000000', 'ida', 'said what is open', '019e8284-c5c0-7009-b1ca-65ada42881b1', '{"covers": ["plugs-out"]}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7032-9eb8-cbf9d9c22e61', '2026-06-01 09:30:00.000000', 'ida', 'said what is open', '019e8284-c5c0-7009-b1ca-65ada42881b1', '{"covers": []}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7034-b4b2-8bd8ded6c0d4', '2026-06-01 09:30:00.000000', 'ida', 'put a cover back', '019e8284-c5c0-7033-9ed2-f4c839e795b5', '{"cover": "plugs-out"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7036-b30a-1470224c451f', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-7035-a21d-a310af0e33ac', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7039-991b-3e569d5615ca', '2026-06-01 09:30:00.000000', 'ida', 'closed a case', '019e8284-c5c0-7038-8fe1-94c32158e035', '{"case": "019e8284-c5c0-7009-b1ca-65ada42881b1"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703a-a8d5-106647ef826f', '2026-06-01 09:30:00.000000', 'ida', 'struck out a result', '019e8284-c5c0-7035-a21d-a310af0e33ac', '{"why": "other vehicle"}');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits) VALUES ('bay', '019e8284-c5c0-7003-aa9f-e5f15f767b5c', 1, '2026-06-01 09:30:00.000000', 'ida', 'grey estate', 'KX-41 QP', 'KX41QP', '', '019e8284-c5c0-7001-96ae-33ee6aa8cc55', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits) VALUES ('bay', '019e8284-c5c0-7011-9b2b-42762a468e34', 1, '2026-06-01 09:30:00.000000', 'ida', 'blue van', 'KX-42 RT', 'KX42RT', '', '019e8284-c5c0-700f-b94d-ab2ff19033f8', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7009-b1ca-65ada42881b1', 4, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7003-aa9f-e5f15f767b5c', 'misfire-counted', 'engine', 'closed', 'not tried', '[]', '{}', '[]');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7017-a186-14a696f34995', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7011-9b2b-42762a468e34', 'misfire-counted', 'engine', 'open', 'not tried', '[]', '{}', '[]');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (1, 'bay', '019e8284-c5c0-7003-aa9f-e5f15f767b5c', 'KX-41 QP KX41QP', '', 'grey estate', 'Marlo Vett', 'W-7 W7 R-2041 R2041');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (2, 'bay', '019e8284-c5c0-7011-9b2b-42762a468e34', 'KX-42 RT KX42RT', '', 'blue van', 'Marlo Vett', 'W-7 W7 R-2042 R2042');
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7005-a128-cd0afb39f1e8', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-aa9f-e5f15f767b5c', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7007-b007-b0268d43b5b7', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-aa9f-e5f15f767b5c', 1, 1, '', 'R-2041', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7013-a5af-4de334e946e6', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-9b2b-42762a468e34', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7015-adc0-26ee1adb1767', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-9b2b-42762a468e34', 1, 1, '', 'R-2042', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700b-93fc-cf146064cdcc', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-b1ca-65ada42881b1', '019e8284-c5c0-7005-a128-cd0afb39f1e8');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700d-ac29-42303681c3df', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-b1ca-65ada42881b1', '019e8284-c5c0-7007-b007-b0268d43b5b7');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-7019-be49-807c89987235', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-a186-14a696f34995', '019e8284-c5c0-7013-a5af-4de334e946e6');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-701b-a785-229672efc7ef', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-a186-14a696f34995', '019e8284-c5c0-7015-adc0-26ee1adb1767');
INSERT INTO codes (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, code, state, freeze_frame) VALUES ('bay', '019e8284-c5c0-7021-a849-08842c52dfa8', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-b007-b0268d43b5b7', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'measured here', '', 'P0303', 'confirmed', '{"engine speed": "742 rpm"}');
INSERT INTO codes_cleared (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, cleared_where, km_ago, day) VALUES ('bay', '019e8284-c5c0-7023-ba4c-efbf3b9b90d5', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-b007-b0268d43b5b7', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'as told', '', 'another shop', 120.0, '2026-05-02');
INSERT INTO jobs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, operation, places, minutes) VALUES ('bay', '019e8284-c5c0-7027-925d-af2b0bf179bc', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-a128-cd0afb39f1e8', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'on paper', 'sheet without values', 'adjust-valve-lash', '["engine"]', 150.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-7025-9636-7fd0644d858f', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-b007-b0268d43b5b7', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, 23.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-7035-a21d-a310af0e33ac', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'other vehicle', '019e8284-c5c0-7013-a5af-4de334e946e6', '019e8284-c5c0-7017-a186-14a696f34995', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, NULL);
INSERT INTO snapshots (site_id, id, version, recorded_at, recorded_by, case_id, why, rules_version, board, minutes) VALUES ('bay', '019e8284-c5c0-7037-b648-eda705b4326d', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'closing', 'r1', '{"rows": []}', 40.0);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701d-a1b5-4d265c56d5d3', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-b007-b0268d43b5b7', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', NULL, NULL);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701f-b4f8-3bf2cbf14279', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-b007-b0268d43b5b7', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', 5000.0, '019e8284-c5c0-7005-a128-cd0afb39f1e8');
INSERT INTO closings (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, cause, place, deciding_result_id, introduced, introduced_by_job_id, minutes, note, left_open, left_open_why) VALUES ('bay', '019e8284-c5c0-7038-8fe1-94c32158e035', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'exhaust-lash-too-tight', 'cyl-3', '019e8284-c5c0-7025-9636-7fd0644d858f', 'by a job', '019e8284-c5c0-7027-925d-af2b0bf179bc', 190.0, 'Set again.', '["valve cover off"]', 'taken away as it stands');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state, photo) VALUES ('bay', '019e8284-c5c0-702b-ac6b-07fa499212dd', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-a128-cd0afb39f1e8', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'on paper', '', '019e8284-c5c0-7027-925d-af2b0bf179bc', 'measured-cold', 'not checked', '');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state, photo) VALUES ('bay', '019e8284-c5c0-702d-a85c-a424134b761f', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-b007-b0268d43b5b7', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'seen here', '', '019e8284-c5c0-7027-925d-af2b0bf179bc', 'measured-cold', 'found wrong', '');
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-7029-be7c-395c586c7a25', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-925d-af2b0bf179bc', 0, 'cover gasket', 'G-11', 'copy', '24-07', 1);
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-702a-8813-75c11262d9d9', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-925d-af2b0bf179bc', 1, 'sealant', '', '', '', 0);
INSERT INTO defects (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, kind, place, words, job_id, photo) VALUES ('bay', '019e8284-c5c0-702f-aaa2-8dfb9133d201', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-b007-b0268d43b5b7', '019e8284-c5c0-7009-b1ca-65ada42881b1', 'seen here', 'wiped dry', 'oil-in-plug-well', 'cyl-3', 'boot swollen', '019e8284-c5c0-7027-925d-af2b0bf179bc', 'ab.jpg');
INSERT INTO put_back (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, visit_id, cover) VALUES ('bay', '019e8284-c5c0-7033-9ed2-f4c839e795b5', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7009-b1ca-65ada42881b1', '019e8284-c5c0-7007-b007-b0268d43b5b7', 'plugs-out');
COMMIT;
