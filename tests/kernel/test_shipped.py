from armorplan.kernel import shipped


def test_resources_and_samples_are_found():
    assert (shipped.resources_folder() / "catalogues" / "treatments.toml").is_file()
    assert (shipped.samples_folder() / "elbow_cop" / "pattern.toml").is_file()


def test_the_wheel_s_own_copy_is_preferred(tmp_path, monkeypatch):
    inside = tmp_path / "armorplan" / "_shipped" / "resources"
    inside.mkdir(parents=True)
    monkeypatch.setattr(shipped, "_PACKAGE", tmp_path / "armorplan")
    assert shipped.resources_folder() == inside
    assert shipped.samples_folder() == tmp_path / "sample_projects"
