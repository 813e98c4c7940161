"""Problems that the program can propose a change of the plan for."""
